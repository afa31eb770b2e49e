using CryoThermo.Flow;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Film coefficient, friction and void fraction of a passage from figures of the phases, continuous in quality from 0 to 1 with both ends and in Reynolds number, positive for
/// all positive inputs. SI, no allocation. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Two phases, as chosen here. Evaporating: Gungor and Winterton (1986) without its step for slow horizontal flow; condensing: Cavallini (2006), since it needs no reduced
/// pressure and has no step; both with the hydraulic diameter, and never below the liquid flowing alone in this passage, since they stand on turbulent liquid and fall short of
/// it in slow flow. A blend adds the resistance of its vapour (Silver, Bell and Ghaly); nucleate boiling fades out as that
/// resistance appears, since mixing suppresses it and no verified formula for several components is at hand. Friction: Mueller-Steinhagen and Heck between the gradients of
/// this very passage as all liquid and all vapour, so that both ends are exact and its shape counts. Void fraction: Rouhani and Axelsson, which knows the mass flux.
/// The joins to the single phases, up to a quality of 0.05 and from 0.9 on, where the wall dries out, are common practice, no source.
/// </remarks>
internal sealed class PassageKernel
{
    public const double JoinedFromLiquidTo = 0.05;
    public const double JoinedToVaporFrom = 0.9;

    /// <summary>Share of heat that warms the vapour from which on nothing is left of nucleate boiling; chosen here.</summary>
    private const double NoNucleateFrom = 0.02;

    /// <summary>Nucleate boiling comes in up to this quality; chosen here.</summary>
    private const double WholeNucleateFrom = 0.01;

    /// <summary>Highest reduced pressure of Cooper's formula, held beyond.</summary>
    private const double HighestReducedPressure = 0.9;

    /// <summary>Wall below saturation where a film runs down it, K: a factor of 2 in it is a factor of 1.19 in that film. Chosen here.</summary>
    private const double FilmSubcooling = 2;

    private readonly PassageShape shape;
    private readonly double diameterRatio;
    private readonly double coilRatio;
    private readonly double roughness;
    private readonly AnnulusNusselt? annulus;

    /// <summary>Prepares what does not depend on the stream.</summary>
    public PassageKernel(FlowPassage passage)
    {
        shape = passage.Shape;
        double outer = passage.OuterDiameter.Meters;
        double inner = passage.InnerDiameter.Meters;
        int tubes = passage.TubeCount;
        FlowArea = 0.25 * Math.PI * ((outer * outer) - (tubes * inner * inner));
        InnerHeatedPerimeter = Math.PI * tubes * inner;
        OuterHeatedPerimeter = Math.PI * outer;
        WettedPerimeter = InnerHeatedPerimeter + OuterHeatedPerimeter;
        HydraulicDiameter = 4 * FlowArea / WettedPerimeter;
        HeatedPerimeter = passage.HeatedWall == PassageWall.Inner ? InnerHeatedPerimeter : OuterHeatedPerimeter;
        roughness = passage.Roughness.Meters / HydraulicDiameter;
        coilRatio = passage.CoilDiameter is { } coil ? HydraulicDiameter / coil.Meters : 0;
        if (shape == PassageShape.Annulus)
        {
            diameterRatio = inner / outer;
            annulus = new(diameterRatio, passage.HeatedWall);
        }
    }

    /// <summary>Free cross-section, m2.</summary>
    public double FlowArea { get; }

    /// <summary>Four cross-sections over the wetted perimeter, m.</summary>
    public double HydraulicDiameter { get; }

    /// <summary>Perimeter of all walls, m.</summary>
    public double WettedPerimeter { get; }

    /// <summary>Perimeter of the tubes inside the passage, m; 0 where there is none.</summary>
    public double InnerHeatedPerimeter { get; }

    /// <summary>Perimeter of the wall around the passage, m.</summary>
    public double OuterHeatedPerimeter { get; }

    /// <summary>Perimeter of the wall through which the heat goes and to which <see cref="Film"/> belongs, m.</summary>
    public double HeatedPerimeter { get; }

    /// <summary>The film coefficient at one place.</summary>
    /// <param name="p">What flows.</param>
    /// <param name="massFlux">kg/(m2 s).</param>
    /// <param name="direction">Way of the heat.</param>
    /// <param name="length">Length over which the flow develops, m; infinite for a long passage. Read in a single phase and for the vapour of a blend.</param>
    /// <param name="heatFlux">W/m2, which nucleate boiling needs; 0 leaves that out.</param>
    public FilmFigures Film(in StreamProperties p, double massFlux, HeatDirection direction, double length, double heatFlux)
    {
        if (p.Quality == 0)
        {
            return Single(p.Liquid, massFlux, length);
        }

        if (p.Quality == 1)
        {
            return Single(p.Vapor, massFlux, length);
        }

        double film = direction == HeatDirection.Heated
            ? Evaporating(p, massFlux, heatFlux)
            : CavalliniCondensation.Coefficient(p, massFlux, HydraulicDiameter, FilmSubcooling);
        film = Math.Max(film, Single(p.Liquid, (1 - p.Quality) * massFlux, double.PositiveInfinity).Coefficient);
        if (p.SensibleShare > 0)
        {
            film = MixtureFilm.Coefficient(film, Single(p.Vapor, p.Quality * massFlux, length).Coefficient, p.SensibleShare);
        }

        double uncertainty = (p.SensibleShare > 0 ? 0.4 : 0.3)
            + (shape == PassageShape.RoundTube && coilRatio == 0 ? 0 : 0.1)
            + (massFlux * HydraulicDiameter < TubeNusselt.LaminarUpTo * p.Liquid.Viscosity ? 0.1 : 0);
        double reynolds = (1 - p.Quality) * massFlux * HydraulicDiameter / p.Liquid.Viscosity;
        FilmRegime regime = direction == HeatDirection.Heated ? FilmRegime.Evaporating : FilmRegime.Condensing;
        if (p.Quality < JoinedFromLiquidTo)
        {
            double liquid = Single(p.Liquid, massFlux, length).Coefficient;
            return new(liquid + (Smooth(p.Quality / JoinedFromLiquidTo) * (film - liquid)), uncertainty + 0.1, FilmRegime.NearLiquid, reynolds);
        }

        if (p.Quality > JoinedToVaporFrom)
        {
            double vapor = Single(p.Vapor, massFlux, length).Coefficient;
            double share = Smooth((1 - p.Quality) / (1 - JoinedToVaporFrom));
            return new(vapor + (share * (film - vapor)), uncertainty + 0.1, FilmRegime.NearVapor, reynolds);
        }

        return new(film, uncertainty, regime, reynolds);
    }

    /// <summary>Pressure gradient by friction, Pa/m, positive; what speeds the flow up is not in it.</summary>
    public double FrictionGradient(in StreamProperties p, double massFlux) => p.Quality switch
    {
        0 => Gradient(p.Liquid, massFlux),
        1 => Gradient(p.Vapor, massFlux),
        _ => TwoPhaseFriction.MuellerSteinhagenHeck(Gradient(p.Liquid, massFlux), Gradient(p.Vapor, massFlux), p.Quality),
    };

    /// <summary>Stated uncertainty of <see cref="FrictionGradient"/> over its value.</summary>
    public double FrictionUncertainty(in StreamProperties p, double massFlux)
    {
        if (p.IsTwoPhase)
        {
            double plain = shape == PassageShape.RoundTube && coilRatio == 0 ? 0.35 : 0.4;
            return Gradient(p.Liquid, massFlux) > Gradient(p.Vapor, massFlux) ? 0.6 : plain;
        }

        PhaseProperties phase = p.Quality == 0 ? p.Liquid : p.Vapor;
        bool isTransitional = RegimeOf(massFlux * HydraulicDiameter / phase.Viscosity) == FilmRegime.Transitional;
        return shape == PassageShape.AroundTubes ? 0.4
            : isTransitional ? 0.3
            : shape == PassageShape.RoundTube && coilRatio == 0 ? 0.05 : 0.1;
    }

    /// <summary>Share of the cross-section that the vapour takes, 0 to 1.</summary>
    public double VoidFraction(in StreamProperties p, double massFlux) => p.IsTwoPhase
        ? Flow.VoidFraction.RouhaniAxelssonUnchecked(p.Quality, p.Liquid.Density, p.Vapor.Density, p.SurfaceTension, massFlux)
        : p.Quality;

    private double Evaporating(in StreamProperties p, double massFlux, double heatFlux)
    {
        double nucleate = Math.Clamp(1 - (p.SensibleShare / NoNucleateFrom), 0, 1) * Math.Min(1, p.Quality / WholeNucleateFrom);
        StreamProperties held = p.ReducedPressure > HighestReducedPressure ? p with { ReducedPressure = HighestReducedPressure } : p;
        return GungorWintertonBoiling.Coefficient(held, massFlux, HydraulicDiameter, heatFlux, false, nucleate);
    }

    private FilmFigures Single(in PhaseProperties p, double massFlux, double length)
    {
        double reynolds = massFlux * HydraulicDiameter / p.Viscosity;
        FilmRegime regime = RegimeOf(reynolds);
        double nusselt = Nusselt(reynolds, p.Prandtl, HydraulicDiameter / length);
        return new(nusselt * p.Conductivity / HydraulicDiameter, Uncertainty(regime), regime, reynolds);
    }

    private double Nusselt(double reynolds, double prandtl, double diameterOverLength)
    {
        if (shape == PassageShape.RoundTube && coilRatio > 0)
        {
            return CoilNusselt.Joined(reynolds, prandtl, coilRatio, diameterOverLength);
        }

        double straight = annulus is null
            ? TubeNusselt.Joined(reynolds, prandtl, diameterOverLength)
            : annulus.Joined(reynolds, prandtl, diameterOverLength);

        // A coil of another cross-section: as much more as in a tube of its hydraulic diameter. Common practice, no source.
        return coilRatio > 0
            ? straight * CoilNusselt.Joined(reynolds, prandtl, coilRatio, 0) / TubeNusselt.Joined(reynolds, prandtl, 0)
            : straight;
    }

    private double Gradient(in PhaseProperties p, double massFlux)
    {
        double reynolds = massFlux * HydraulicDiameter / p.Viscosity;
        return Friction(reynolds) * massFlux * massFlux / (2 * p.Density * HydraulicDiameter);
    }

    private double Friction(double reynolds)
    {
        if (shape == PassageShape.RoundTube && coilRatio > 0)
        {
            return FrictionFactor.CoilUnchecked(reynolds, coilRatio, roughness);
        }

        double straight = FrictionFactor.ChurchillUnchecked(
            annulus is null ? reynolds : reynolds / FrictionFactor.LaminarAnnulusFactor(diameterRatio), roughness);
        return coilRatio > 0
            ? straight * FrictionFactor.CoilUnchecked(reynolds, coilRatio, roughness) / FrictionFactor.ChurchillUnchecked(reynolds, roughness)
            : straight;
    }

    private FilmRegime RegimeOf(double reynolds)
    {
        (double laminar, double turbulent) = coilRatio > 0
            ? (FrictionFactor.CoilCriticalReynolds(coilRatio), CoilNusselt.TurbulentFrom)
            : (TubeNusselt.LaminarUpTo, TubeNusselt.TurbulentFrom);
        return reynolds <= laminar ? FilmRegime.Laminar : reynolds < turbulent ? FilmRegime.Transitional : FilmRegime.Turbulent;
    }

    // Turbulent flow in a straight tube as the publication states; the others estimated here. Laminar: between a wall of one temperature, as taken, and an even heat flux lie 19 %.
    private double Uncertainty(FilmRegime regime) => (shape, regime) switch
    {
        (PassageShape.AroundTubes, FilmRegime.Turbulent) => 0.25,
        (PassageShape.AroundTubes, _) => 0.4,
        (_, FilmRegime.Laminar) => 0.2,
        (_, FilmRegime.Transitional) => 0.3,
        (PassageShape.RoundTube, _) when coilRatio == 0 => 0.1,
        _ => 0.15,
    };

    private static double Smooth(double share) => share * share * (3 - (2 * share));
}
