using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using CryoThermo.Substances;
using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Condensation of a vapour on a cold wall of one temperature: pure, or of two components of which one is held back, wholly (helium in nitrogen) or partly
/// (nitrogen in methane). Stateless and thread-safe.
/// </summary>
/// <remarks>
/// <para>
/// The condensate's film by Nusselt and, where it is thick, with waves or turbulence. Between the vapour far off and the film's surface lies a layer in which
/// the held-back component gathers; film and vapour are in equilibrium at their common surface, whose temperature is found from the balance
/// q = N (latent heat + 0.68 of the liquid's heat down to the wall) + sensible heat, q = film coefficient times (interface - wall).
/// </para>
/// <para>
/// Layer: N = beta c ln((y_i - x)/(y - x)) with the mole fractions of the held-back component at the interface (i), far off and in the condensate (x); the condensate is
/// what the liquid at the interface is, as in a film that does not mix. Sensible heat with Ackermann's factor. beta and its counterpart for heat by one
/// correlation (analogy): natural convection driven by the difference of density between interface and vapour, joined with the forced flow by cubes.
/// Where cold and composition nearly cancel in density, a fifth of both is taken (judged here). Friction of the vapour on the film is left out, which is on the safe side where the vapour runs downwards.
/// </para>
/// </remarks>
public static class WallCondensation
{
    /// <summary>Share of the liquid's own heat that counts with the latent heat: W. M. Rohsenow, Trans. ASME 78 (1956) 1645, from memory.</summary>
    private const double Undercooling = 0.68;

    /// <summary>Share of the buoyancies of temperature and composition that is left where they are against each other and cancel: judged here, no source.</summary>
    private const double LeastBuoyancy = 0.2;

    /// <summary>Bounds of the flux searched, mol/(m2 s): so little that the film takes any heat at 1e-6 K, and more than any film takes.</summary>
    private const double LeastFlux = 1e-36;
    private const double GreatestFlux = 1e6;

    /// <summary>Below this a film has no difference that could be told from rounding, K.</summary>
    private const double LeastDrop = 1e-6;

    /// <summary>A mole fraction that counts for nothing.</summary>
    private const double NoAmount = 1e-12;

    /// <summary>Condenses a vapour on a wall.</summary>
    /// <param name="surface">The wall.</param>
    /// <param name="vapor">The vapour far from it: one vapour phase of one or two components.</param>
    /// <param name="wall">Temperature of the wall, below the dew point; not below where the condensing component freezes.</param>
    /// <param name="speed">Of the vapour along the wall or across the tube, 0 to 100 m/s; still where left out.</param>
    /// <exception cref="ArgumentException">The vapour has a liquid beside it, has more than two components, or no diffusion volume is known.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The wall or the speed is out of its range, or the pressure is above the critical one of the condensing component.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public static WallCondensationResult On(CondensingSurface surface, State vapor, Temperature wall, Speed speed = default)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(vapor);
        double velocity = Guard.InRange(speed.MetersPerSecond, 0, 100, "m/s", nameof(speed));
        Phase bulk = vapor.Phases.FirstOrDefault(p => p.Kind == PhaseKind.Vapor && p.Fraction > 1 - 1e-9)
            ?? throw new ArgumentException($"vapor is {vapor.PhaseDescription}; a vapour alone is meant.", nameof(vapor));
        if (vapor.Fluid.IsPseudoPure)
        {
            throw new ArgumentException($"vapor is {vapor.Fluid}, described as if it were pure: make it a mixture of two components.", nameof(vapor));
        }

        int[] present = [.. Enumerable.Range(0, vapor.Fluid.Composition.Components.Count).Where(i => vapor.Fluid.Composition.MoleFractions[i] > 0)];
        if (present.Length > 2)
        {
            throw new ArgumentException(
                $"vapor is {vapor.Fluid.Composition}; one or two components are meant. Of several held back take the one there is most of for all.", nameof(vapor));
        }

        return present.Length == 1 ? Pure(surface, vapor, bulk, wall, velocity) : Mixed(surface, vapor, bulk, wall, velocity, present);
    }

    // Beside a mixture its condensate is computed as that of the mixture at no amount of the other: pure fluids and mixtures have viscosities of their own.
    private static WallCondensationResult Pure(CondensingSurface surface, State vapor, Phase bulk, Temperature wall, double speed, int? beside = null)
    {
        Saturation boiling = vapor.Fluid.Saturation(vapor.Pressure);
        CheckWall(wall, boiling.Temperature, vapor.Fluid.Composition.Components[TransportKernel.Only(vapor.Fluid.Composition.Fractions)]);
        Phase steam = boiling.Vapor.Phases.First(p => p.Kind == PhaseKind.Vapor);
        Phase liquid = boiling.Liquid.Phases.First(p => p.Kind == PhaseKind.Liquid);
        double[] condensate = [.. liquid.Composition.MoleFractions];
        if (beside is { } other)
        {
            condensate[other] = NoAmount;
        }

        (CondensateFilm film, double heatCapacity) = Film(vapor, condensate, liquid, boiling.Temperature.Kelvins, wall.Kelvins, steam);
        double drop = boiling.Temperature.Kelvins - wall.Kelvins;
        double latent = steam.MolarEnthalpy.JoulesPerMole - liquid.MolarEnthalpy.JoulesPerMole + (Undercooling * heatCapacity * drop);
        Layer layer = new(surface, steam, boiling.Temperature.Kelvins, bulk, vapor.Temperature.Kelvins, speed, null);
        double molarMass = steam.Composition.MolarMass.KilogramsPerMole;

        double flux = FluxOfFilm(surface, film, layer, latent, drop, molarMass);
        double sensible = layer.Sensible(flux);
        double heat = (flux * latent) + sensible;
        return Result(surface, vapor, wall, boiling.Temperature, boiling.Temperature, heat, sensible, flux, molarMass, film, null, 0, null, null, heat, []);
    }

    private static WallCondensationResult Mixed(CondensingSurface surface, State vapor, Phase bulk, Temperature wall, double speed, int[] present)
    {
        State dew = vapor.Fluid.DewPoint(vapor.Pressure);
        Phase drop = dew.Phases.First(p => p.Kind == PhaseKind.Liquid);
        int held = drop.Composition.MoleFractions[present[0]] < bulk.Composition.MoleFractions[present[0]] ? present[0] : present[1];
        int condensing = present[0] + present[1] - held;
        IReadOnlyList<Substance> components = vapor.Fluid.Composition.Components;
        CheckWall(wall, dew.Temperature, components[condensing]);
        Case given = new(surface, vapor, bulk, wall.Kelvins, speed, held, components[held], components[condensing]);
        (double low, double high) = BracketedRoot.Narrow(
            given.Balance,
            wall.Kelvins,
            -1,
            dew.Temperature.Kelvins,
            1,
            (a, b) => Math.Abs(b - a) <= 1e-11 * Math.Abs(b));
        Solved? solved = given.At(0.5 * (low + high)) ?? given.At(Math.Max(low, high)) ?? given.At(Math.Min(low, high));
        if (solved is not { } found)
        {
            throw new ConvergenceException(
                "Condensation on a wall", $"{vapor.Fluid.Composition} at {vapor.Pressure.Bars:G6} bar, wall {wall.Kelvins:G6} K", high - low, "Change the temperature of the wall a little.");
        }

        // Where the condensate is as the vapour (a trace, or a wall so cold that all condenses), the layer passes any flow and the film alone decides.
        double flux = found.Flux;
        double sensible = found.Sensible;
        double heat = found.Heat;
        if (Math.Abs(found.Taken - heat) > 1e-6 * heat && found.Temperature - wall.Kelvins >= LeastDrop)
        {
            flux = FluxOfFilm(surface, found.Film, found.Layer, found.Latent, found.Temperature - wall.Kelvins, found.MolarMass);
            sensible = found.Layer.Sensible(flux);
            heat = (flux * found.Latent) + sensible;
        }

        // The condensing component alone, as far above its boiling temperature as the vapour is above its dew point.
        double[] alone = new double[components.Count];
        alone[condensing] = 1;
        WorkingFluid pure = vapor.Fluid.WithFractions(alone);
        Saturation boiling = pure.Saturation(vapor.Pressure);
        double above = vapor.Temperature.Kelvins - dew.Temperature.Kelvins;
        State steam = above > 1e-3 ? pure.At(Temperature.FromKelvins(boiling.Temperature.Kelvins + above), vapor.Pressure) : boiling.Vapor;
        double without = Pure(surface, steam, steam.Phases.First(p => p.Kind == PhaseKind.Vapor), wall, speed, held).HeatFlux.WattsPerSquareMeter;
        List<string> notes =
        [
            $"{components[held].Name} stays at the wall and gathers in a closed vessel: vent it {(found.Steam.Density < bulk.Density ? "at the top, since the layer at the wall is the lighter" : "at the bottom, since the layer at the wall is the heavier")}, or the flux falls with time.",
        ];
        if (found.Layer.Cancels && speed == 0)
        {
            notes.Add("In the layer cold and gas held back nearly balance in density: natural convection is weak there and known by order of size only.");
        }

        return Result(
            surface,
            vapor,
            wall,
            dew.Temperature,
            Temperature.FromKelvins(found.Temperature),
            heat,
            sensible,
            flux,
            found.MolarMass,
            found.Film,
            components[held].Name,
            found.Steam.Composition.MoleFractions[held],
            found.Layer.MassCoefficient,
            found.Layer.Diffusion,
            without,
            notes);
    }

    // What condenses sets the film, and the film what condenses: what the film takes falls with it, what comes rises.
    private static double FluxOfFilm(CondensingSurface surface, CondensateFilm film, Layer layer, double latent, double drop, double molarMass)
    {
        return Math.Exp(BracketedRoot.Solve(ByLog, Math.Log(LeastFlux), Math.Log(GreatestFlux)));

        double ByLog(double log)
        {
            double n = Math.Exp(log);
            double brought = (n * latent) + layer.Sensible(n);
            double taken = film.Coefficient(4 * n * molarMass * surface.RunMeters / film.Viscosity, surface.IsHorizontalTube) * drop;
            return (taken - brought) / (taken + brought);
        }
    }

    private static void CheckWall(Temperature wall, Temperature dew, Substance condensing)
    {
        double least = condensing.TripleTemperature ?? 10;
        if (!(wall.Kelvins >= least && wall.Kelvins <= dew.Kelvins - LeastDrop))
        {
            throw new ArgumentOutOfRangeException(
                nameof(wall), wall, $"wall is {wall.Kelvins:G6} K; vapour condenses on it below the dew point of {dew.Kelvins:G6} K, and {condensing.Name} freezes below {least:G6} K.");
        }
    }

    // Properties of the condensate midway through the film, and its molar heat capacity.
    private static (CondensateFilm Film, double HeatCapacity) Film(State vapor, double[] condensate, Phase liquid, double interfaceKelvins, double wall, Phase steam)
    {
        State middle = vapor.Fluid.WithFractions(condensate).At(Temperature.FromKelvins(0.5 * (interfaceKelvins + wall)), vapor.Pressure);

        // A little gas that comes out on cooling (helium dissolves less when cold) is left out.
        Phase film = middle.Phases.LastOrDefault(p => p.Kind == PhaseKind.Liquid) ?? liquid;
        TransportProperties transport = film.Transport;
        return (
            new(
                transport.ThermalConductivity.WattsPerMeterKelvin,
                transport.Viscosity.PascalSeconds,
                film.Density.KilogramsPerCubicMeter,
                steam.Density.KilogramsPerCubicMeter,
                transport.PrandtlNumber),
            film.IsobaricHeatCapacity.JoulesPerMoleKelvin);
    }

    private static WallCondensationResult Result(
        CondensingSurface surface,
        State vapor,
        Temperature wall,
        Temperature dew,
        Temperature between,
        double heat,
        double sensible,
        double flux,
        double molarMass,
        CondensateFilm film,
        string? held,
        double heldAtInterface,
        double? massCoefficient,
        DiffusionEstimate? diffusion,
        double pure,
        IReadOnlyList<string> notes)
    {
        double reynolds = 4 * flux * molarMass * surface.RunMeters / film.Viscosity;
        CondensateRegime regime = surface.IsHorizontalTube || reynolds < CondensateFilm.WavyFrom ? CondensateRegime.Laminar
            : reynolds < CondensateFilm.TurbulentFrom ? CondensateRegime.Wavy
            : CondensateRegime.Turbulent;
        double whole = dew.Kelvins - wall.Kelvins;
        double filmShare = (between.Kelvins - wall.Kelvins) / whole;
        double filmPart = (regime == CondensateRegime.Laminar ? 15 : 25) * filmShare;
        double layerPart = 30 * (1 - filmShare);
        double coefficient = film.Coefficient(reynolds, surface.IsHorizontalTube);
        return new(
            surface,
            vapor,
            wall,
            dew,
            between,
            HeatFlux.FromWattsPerSquareMeter(heat),
            HeatFlux.FromWattsPerSquareMeter(sensible),
            MassFlux.FromKilogramsPerSecondPerSquareMeter(flux * molarMass),
            HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(heat / whole),
            HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(coefficient),
            reynolds,
            regime,
            held,
            heldAtInterface,
            massCoefficient,
            diffusion,
            HeatFlux.FromWattsPerSquareMeter(pure),
            Math.Sqrt((filmPart * filmPart) + (layerPart * layerPart)),
            surface.IsHorizontalTube && reynolds > 3200 ? [.. notes, $"The film Reynolds number of {reynolds:G3} is high for a tube lying: the laminar figure is on the safe side."] : notes);
    }

    /// <summary>The layer of vapour at the film's surface.</summary>
    private sealed class Layer
    {
        private readonly double heatCoefficient;
        private readonly double heatCapacity;
        private readonly double difference;
        private readonly double concentration;

        public Layer(CondensingSurface surface, Phase steam, double interfaceKelvins, Phase bulk, double bulkKelvins, double speed, DiffusionEstimate? diffusion)
        {
            TransportProperties own = steam.Transport;
            TransportProperties far = bulk.Transport;
            double viscosity = 0.5 * (own.Viscosity.PascalSeconds + far.Viscosity.PascalSeconds);
            double conductivity = 0.5 * (own.ThermalConductivity.WattsPerMeterKelvin + far.ThermalConductivity.WattsPerMeterKelvin);
            double density = 0.5 * (steam.Density.KilogramsPerCubicMeter + bulk.Density.KilogramsPerCubicMeter);
            concentration = 0.5 * (steam.MolarDensity.MolesPerCubicMeter + bulk.MolarDensity.MolesPerCubicMeter);
            heatCapacity = 0.5 * (steam.IsobaricHeatCapacity.JoulesPerMoleKelvin + bulk.IsobaricHeatCapacity.JoulesPerMoleKelvin);
            difference = Math.Max(0, bulkKelvins - interfaceKelvins);
            double prandtl = heatCapacity * concentration / density * viscosity / conductivity;
            double length = surface.LengthMeters;
            double net = Math.Abs(steam.Density.KilogramsPerCubicMeter - bulk.Density.KilogramsPerCubicMeter) / density;
            double byTemperature = difference / (0.5 * (interfaceKelvins + bulkKelvins));
            double byComposition = Math.Abs((steam.Composition.MolarMass - bulk.Composition.MolarMass).KilogramsPerMole) * concentration / density;
            double least = LeastBuoyancy * (byTemperature + byComposition);
            Cancels = least > net;
            double grashof = Medium.Gravity * Math.Max(net, least) * length * length * length * density * density / (viscosity * viscosity);
            double reynolds = speed * length * density / viscosity;
            heatCoefficient = Number(surface, grashof, reynolds, prandtl) * conductivity / length;
            Diffusion = diffusion;
            if (diffusion is not null)
            {
                double schmidt = viscosity / (density * diffusion.SquareMetersPerSecond);
                MassCoefficient = Number(surface, grashof, reynolds, schmidt) * diffusion.SquareMetersPerSecond / length;
            }
        }

        public DiffusionEstimate? Diffusion { get; }

        public double MassCoefficient { get; }

        /// <summary>Whether temperature and composition nearly cancel in the density.</summary>
        public bool Cancels { get; }

        /// <summary>Moles to the wall on an area by film theory; infinite where the condensate is as the vapour far off.</summary>
        public double Flux(double heldAtInterface, double heldFar, double heldInLiquid) =>
            heldFar <= heldInLiquid ? double.PositiveInfinity : MassCoefficient * concentration * Math.Log((heldAtInterface - heldInLiquid) / (heldFar - heldInLiquid));

        /// <summary>Heat that the warmer vapour brings beside, with Ackermann's factor.</summary>
        public double Sensible(double flux)
        {
            double e = flux * heatCapacity / heatCoefficient;
            double factor = e < 1e-6 ? 1 + (0.5 * e) : e / (1 - Math.Exp(-e));
            return heatCoefficient * factor * difference;
        }

        // Natural and forced flow joined by cubes (S. W. Churchill, AIChE J. 23 (1977) 10, from memory).
        private static double Number(CondensingSurface surface, double grashof, double reynolds, double prandtl)
        {
            double natural = surface.IsHorizontalTube
                ? ConvectionForms.HorizontalCylinder(grashof * prandtl, prandtl)
                : ConvectionForms.VerticalPlate(grashof * prandtl, prandtl);
            double forced = reynolds <= 0 ? 0
                : surface.IsHorizontalTube ? ConvectionForms.CylinderAcross(reynolds, prandtl) : ConvectionForms.PlateAlong(reynolds, prandtl);
            return Math.Cbrt((natural * natural * natural) + (forced * forced * forced));
        }
    }

    /// <summary>Everything at one temperature of the interface.</summary>
    private readonly record struct Solved(
        double Temperature, Phase Steam, Layer Layer, CondensateFilm Film, double MolarMass, double Latent, double Flux, double Sensible, double Heat, double Taken);

    /// <summary>The balance of two components over the temperature of the interface.</summary>
    private sealed class Case(
        CondensingSurface surface, State vapor, Phase bulk, double wall, double speed, int held, Substance heldSubstance, Substance condensing)
    {
        // From -1 (too much condenses) to 1 (the film would take more).
        public double Balance(double kelvins)
        {
            State state = vapor.Fluid.At(Temperature.FromKelvins(kelvins), vapor.Pressure);
            if (At(kelvins, state) is { } solved)
            {
                return (solved.Taken - solved.Heat) / (solved.Taken + solved.Heat);
            }

            // All liquid: the vapour would condense whole. All vapour: nothing condenses.
            return state.VaporFraction < 0.5 ? -1 : 1;
        }

        public Solved? At(double kelvins) => At(kelvins, vapor.Fluid.At(Temperature.FromKelvins(kelvins), vapor.Pressure));

        private Solved? At(double kelvins, State state)
        {
            Phase? steam = state.Phases.FirstOrDefault(p => p.Kind == PhaseKind.Vapor);
            Phase? liquid = state.Phases.LastOrDefault(p => p.Kind == PhaseKind.Liquid);
            if (steam is null || liquid is null)
            {
                return null;
            }

            double heldAtInterface = steam.Composition.MoleFractions[held];
            double heldInLiquid = liquid.Composition.MoleFractions[held];
            double heldFar = bulk.Composition.MoleFractions[held];
            DiffusionEstimate diffusion = GasDiffusion.Of(heldSubstance, condensing, Temperature.FromKelvins(0.5 * (kelvins + vapor.Temperature.Kelvins)), vapor.Pressure);
            Layer layer = new(surface, steam, kelvins, bulk, vapor.Temperature.Kelvins, speed, diffusion);
            double flux = layer.Flux(heldAtInterface, heldFar, heldInLiquid);
            if (!(flux > 0) || !double.IsFinite(flux))
            {
                return null;
            }

            (CondensateFilm film, double heatCapacity) = Film(vapor, [.. liquid.Composition.MoleFractions], liquid, kelvins, wall, steam);
            double molarMass = liquid.Composition.MolarMass.KilogramsPerMole;
            double latent = Latent(kelvins, steam, liquid) + (Undercooling * heatCapacity * (kelvins - wall));
            double sensible = layer.Sensible(flux);
            double heat = (flux * latent) + sensible;
            double taken = film.Coefficient(4 * flux * molarMass * surface.RunMeters / film.Viscosity, surface.IsHorizontalTube) * (kelvins - wall);
            return new(kelvins, steam, layer, film, molarMass, latent, flux, sensible, heat, taken);
        }

        // Vapour of the condensate's composition less the condensate: along the tangent from the vapour at the interface, since such a vapour is
        // undercooled; the slope from a vapour with more of the held-back component.
        private double Latent(double kelvins, Phase steam, Phase liquid)
        {
            double own = steam.Composition.MoleFractions[held];
            double step = Math.Min(0.02, 0.5 * (1 - own));
            double[] richer = [.. steam.Composition.MoleFractions];
            for (int i = 0; i < richer.Length; i++)
            {
                richer[i] = i == held ? own + step : richer[i] > 0 ? richer[i] - step : 0;
            }

            State other = vapor.Fluid.WithFractions(richer).At(Temperature.FromKelvins(kelvins), vapor.Pressure);
            Phase gas = other.Phases.FirstOrDefault(p => p.Kind == PhaseKind.Vapor) ?? steam;
            double slope = (gas.MolarEnthalpy.JoulesPerMole - steam.MolarEnthalpy.JoulesPerMole) / step;
            return steam.MolarEnthalpy.JoulesPerMole + ((liquid.Composition.MoleFractions[held] - own) * slope) - liquid.MolarEnthalpy.JoulesPerMole;
        }
    }
}
