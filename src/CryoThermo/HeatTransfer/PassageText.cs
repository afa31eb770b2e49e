using CryoThermo.Diagnostics;

namespace CryoThermo.HeatTransfer;

/// <summary>Tells by which formulae a passage was computed and what lies outside of their ranges.</summary>
internal static class PassageText
{
    private const string Joined = "never below the liquid alone, and joined to a single phase below a quality of 0.05 and above 0.9 (common practice, no source)";

    /// <summary>The film coefficient in words.</summary>
    public static string FilmMethod(FlowPassage passage, FilmRegime regime, HeatDirection direction, in StreamProperties p)
    {
        if (!p.IsTwoPhase)
        {
            return SinglePhase(passage, regime);
        }

        string film = direction == HeatDirection.Heated
            ? "K. E. Gungor, R. H. S. Winterton, Int. J. Heat Mass Transfer 29 (1986) 351"
            : "A. Cavallini et al., HVAC&R Res. 12 (2006) 1175, wall 2 K below where a film runs down";
        string blend = p.SensibleShare > 0
            ? ", with the resistance of the vapour of a blend (L. Silver 1947; K. J. Bell, M. A. Ghaly 1973)"
            : string.Empty;
        string shape = passage.Shape == PassageShape.RoundTube && passage.CoilDiameter is null ? string.Empty : ", formulae of straight tubes with the hydraulic diameter (common practice, no source)";
        return $"{film}{blend}{shape}; {Joined}";
    }

    /// <summary>The friction in words.</summary>
    public static string FrictionMethod(FlowPassage passage, bool isTwoPhase)
    {
        string single = (passage.Shape, passage.CoilDiameter is not null) switch
        {
            (PassageShape.RoundTube, false) => "S. W. Churchill 1977",
            (PassageShape.RoundTube, true) => "R. L. Manlapaz, S. W. Churchill 1980 (laminar), H. Ito 1959 (turbulent)",
            (PassageShape.Annulus, false) => "laminar exact, turbulent S. W. Churchill 1977 at the Reynolds number of equal laminar friction (V. Gnielinski 2009)",
            (PassageShape.Annulus, true) => "annulus (V. Gnielinski 2009) raised as a coiled tube (H. Ito 1959; common practice, no source)",
            (_, false) => "S. W. Churchill 1977 with the hydraulic diameter (common practice, no source)",
            _ => "S. W. Churchill 1977 with the hydraulic diameter, raised as a coiled tube (H. Ito 1959; common practice, no source)",
        };
        return isTwoPhase ? $"H. Mueller-Steinhagen, K. Heck, Chem. Eng. Process. 20 (1986) 297 between all liquid and all vapour, each by {single}" : single;
    }

    /// <summary>What lies outside of a range; empty when nothing does.</summary>
    public static IReadOnlyList<RangeNote> Notes(FlowPassage passage, State state, in StreamProperties p, double flux, in FilmFigures film, HeatDirection direction, double length)
    {
        List<RangeNote> notes = [];
        foreach (Phase phase in state.Phases)
        {
            if (!phase.IsIncipient)
            {
                notes.AddRange(phase.Transport.Notes);
            }
        }

        if (state.Phases.Count(static f => f.Kind == PhaseKind.Liquid && !f.IsIncipient) > 1)
        {
            notes.Add(new("two liquids", "both liquids are taken as one, weighted by mass; how they lie on the wall is not known."));
        }

        double d = passage.Kernel.HydraulicDiameter;
        if (p.IsTwoPhase)
        {
            TwoPhaseNotes(notes, passage, p, flux, film, direction);
            return notes;
        }

        double prandtl = (p.Quality == 1 ? p.Vapor : p.Liquid).Prandtl;
        if (film.Regime != FilmRegime.Laminar && prandtl < 0.5)
        {
            notes.Add(new("turbulent film", $"the Prandtl number is {prandtl:G3}; the formula was made for 0.5 and above."));
        }

        if (film.Regime == FilmRegime.Turbulent && film.Reynolds > 5e6)
        {
            notes.Add(new("turbulent film", $"the Reynolds number is {film.Reynolds:G3}; the formula was made up to 5e6."));
        }

        if (length < d)
        {
            notes.Add(new("inlet", $"the length of {length:G3} m is below the hydraulic diameter of {d:G3} m: turbulent flow is taken as if both were equal."));
        }

        if (passage.CoilDiameter is { } coil && film.Regime == FilmRegime.Turbulent && film.Reynolds * d * d / (coil.Meters * coil.Meters) is var bend and (< 0.034 or > 300))
        {
            notes.Add(new("turbulent friction in a coil", $"Re (d/D)^2 is {bend:G3}; the formula was made for 0.034 to 300."));
        }

        return notes;
    }

    private static void TwoPhaseNotes(List<RangeNote> notes, FlowPassage passage, in StreamProperties p, double flux, in FilmFigures film, HeatDirection direction)
    {
        double d = passage.Kernel.HydraulicDiameter;
        if (film.Regime == FilmRegime.NearVapor && direction == HeatDirection.Heated)
        {
            notes.Add(new("dry-out", $"the quality is {p.Quality:0.###}: from 0.9 on the wall dries out somewhere, and the coefficient falls towards that of the vapour."));
        }

        if (direction == HeatDirection.Cooled && d < 3e-3)
        {
            notes.Add(new("condensing", $"the hydraulic diameter is {d * 1e3:0.###} mm; the formula was made for bores above 3 mm."));
        }

        double whole = flux * d / p.Liquid.Viscosity;
        if (whole < TubeNusselt.LaminarUpTo)
        {
            notes.Add(new("liquid film", $"the flow taken as liquid has a Reynolds number of {whole:0}, laminar below 2300; the formulae of two phases stand on turbulent liquid."));
        }

        double froude = flux * flux / (p.Liquid.Density * p.Liquid.Density * Flow.TwoPhaseStream.Gravity * d);
        if (direction == HeatDirection.Heated && froude < 0.05)
        {
            notes.Add(new("slow flow", $"the Froude number is {froude:G2}: below 0.05 the top of a horizontal tube runs dry, and the coefficient there is less."));
        }

        if (passage.Kernel.FrictionUncertainty(p, flux) > 0.5)
        {
            notes.Add(new("friction", "the liquid alone has more friction than the vapour alone: outside of what the correlation was made for."));
        }
    }

    private static string SinglePhase(FlowPassage passage, FilmRegime regime)
    {
        bool isCoiled = passage.CoilDiameter is not null;
        const string Tube = "V. Gnielinski, Int. Chem. Eng. 16 (1976) 359";
        const string Ring = "V. Gnielinski, Heat Transfer Eng. 30 (2009) 1059";
        const string Between = "V. Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134";
        const string CoilLaminar = "R. L. Manlapaz, S. W. Churchill, Chem. Eng. Commun. 9 (1981) 185";
        const string CoilTurbulent = "V. Gnielinski, VDI Heat Atlas, chapter G3";
        string round = (isCoiled, regime) switch
        {
            (false, FilmRegime.Laminar) => "laminar, V. Gnielinski, VDI Heat Atlas, chapter G1, wall of one temperature",
            (false, FilmRegime.Transitional) => $"linear in the Reynolds number from laminar flow at 2300 to turbulent flow at 4000, {Between}",
            (false, _) => $"turbulent, {Tube}",
            (true, FilmRegime.Laminar) => $"laminar in a coil, {CoilLaminar}, wall of one temperature",
            (true, FilmRegime.Transitional) => $"linear in the Reynolds number from laminar ({CoilLaminar}) to turbulent flow at 22000 ({CoilTurbulent})",
            (true, _) => $"turbulent in a coil, {CoilTurbulent}",
        };
        if (passage.Shape == PassageShape.RoundTube)
        {
            return round;
        }

        if (passage.Shape == PassageShape.AroundTubes)
        {
            return $"as a tube of the hydraulic diameter (common practice, no source): {round}";
        }

        string wall = passage.HeatedWall == PassageWall.Inner ? "heat through the inner wall" : "heat through the outer wall";
        string ring = $"laminar exact (R. E. Lundberg, P. A. McCuen, W. C. Reynolds 1963), turbulent {Ring}, {wall}";
        return isCoiled ? $"{ring}; raised as in a coiled tube of the hydraulic diameter (common practice, no source): {round}" : ring;
    }
}
