using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random capillaries: pure fluids and blends of up to five components, gas, liquid and two phases at the inlet, one or two bores, some with a
/// stream alongside. Each is solved, and held against states of its own, or refused with the reason.
/// </summary>
public static class CapillarySoak
{
    private static readonly string[] Pool =
    [
        "nitrogen", "argon", "oxygen", "methane", "ethylene", "ethane", "propylene", "propane", "isobutane", "n-butane", "isopentane", "R-14", "R-23", "R-134a", "R-32", "carbon dioxide",
        "krypton", "neon", "hydrogen", "helium",
    ];

    /// <summary>Of the counts 1 is choked, 2 not choked, 3 with a stream alongside; every third case by the recommended model, the others by Peng-Robinson.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        CaseRandom random = new(seed, number);
        int count = 1 + random.Whole(5);
        string[] names = [.. Enumerable.Range(0, 60).Select(_ => Pool[random.Whole(Pool.Length)]).Distinct().Take(count)];
        double[] z = new double[names.Length];
        random.Simplex(z, 1);
        bool isRecommended = number % 3 == 2;
        double kelvins = random.Uniform(70, 330);
        double high = Math.Exp(random.Uniform(Math.Log(2), Math.Log(60)));
        double low = random.Whole(4) == 0 ? high * random.Uniform(0.3, 0.98) : Math.Max(0.05, high * Math.Exp(random.Uniform(-3.5, -0.5)));
        double bore = Math.Exp(random.Uniform(Math.Log(0.2), Math.Log(3)));
        double length = Math.Exp(random.Uniform(Math.Log(0.05), Math.Log(6)));
        double second = random.Whole(4) == 0 ? bore * random.Uniform(0.6, 1.8) : 0;
        bool hasStream = random.Whole(6) == 0;
        string inputs = FormattableString.Invariant(
            $"seed {seed} case {number}: {string.Join(", ", names.Zip(z, (n, x) => FormattableString.Invariant($"{n} {x:R}")))} {(isRecommended ? "recommended" : "Peng-Robinson")} {kelvins:R} K {high:R} to {low:R} bar, {bore:R} mm {length:R} m{(second > 0 ? FormattableString.Invariant($", then {second:R} mm") : string.Empty)}{(hasStream ? ", stream" : string.Empty)}");
        try
        {
            WorkingFluid fluid = WorkingFluid.Mixture([.. names.Zip(z)]);
            fluid = isRecommended ? fluid : fluid.WithModel(FluidModel.PengRobinson);
            State inlet = fluid.At(Temperature.FromKelvins(kelvins), Pressure.FromBars(high));
            Pressure outlet = Pressure.FromBars(low);
            CapillarySection first = new(Length.FromMillimeters(bore), Length.FromMeters(length));
            CapillaryExchange? stream = hasStream
                ? new(fluid.At(Temperature.FromKelvins(Math.Max(70, kelvins - random.Uniform(0, 80))), outlet), MassFlow.FromGramsPerSecond(random.Uniform(0.1, 2)), random.Uniform(0, 0.5), random.Whole(2) == 0)
                : null;
            Capillary capillary = new(
                second > 0 ? [first, new(Length.FromMillimeters(second), Length.FromMeters(0.5 * length))] : [first], exchange: stream, twoPhaseViscosity: (TwoPhaseViscosity)random.Whole(3));
            CapillaryFlow flow = capillary.FlowTo(inlet, outlet);
            double worst = 0;
            string? wrong = Wrong(capillary, flow, ref worst);
            return new(wrong is null ? null : $"{inputs}: {wrong}", hasStream ? 3 : flow.IsChoked ? 1 : 2, false, worst);
        }
        catch (Exception e) when (e is ConvergenceException or ArgumentOutOfRangeException)
        {
            // Outside the model or too much heat alongside; anything else without convergence is a failure.
            bool isReason = e is ArgumentOutOfRangeException || hasStream;
            return new(isReason ? null : $"{inputs}: {e.Message}", 0, true, 0);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return new($"{inputs}: {e.GetType().Name} {e.Message}", 0, false, 0);
        }
    }

    private static string? Wrong(Capillary capillary, CapillaryFlow flow, ref double worst)
    {
        if (!(flow.MassFlow.KilogramsPerSecond > 0) || !double.IsFinite(flow.MassFlow.KilogramsPerSecond))
        {
            return $"flow {flow.MassFlow.KilogramsPerSecond:R} kg/s";
        }

        for (int i = 1; i < flow.Profile.Count; i++)
        {
            CapillaryPoint a = flow.Profile[i - 1];
            CapillaryPoint b = flow.Profile[i];
            if (a.Section == b.Section && (b.Pressure > a.Pressure || b.Position < a.Position))
            {
                return $"pressure rises or position falls at {b.Position.Meters:R} m";
            }
        }

        double end = flow.Profile[^1].Position.Meters;
        if (Math.Abs(end - capillary.Length.Meters) > 1e-6 * end)
        {
            return $"the course ends at {end:R} m";
        }

        double v = flow.Profile[^1].Velocity.MetersPerSecond;
        double area = 0.25 * Math.PI * Math.Pow(capillary.Sections[^1].Bore.Meters, 2);
        double continuity = (flow.Exit.Density.KilogramsPerCubicMeter * v * area / flow.MassFlow.KilogramsPerSecond) - 1;
        if (Math.Abs(continuity) > 5e-3)
        {
            return FormattableString.Invariant($"density at the end off by {continuity:E2}, {flow.Exit}");
        }

        if (flow.ChokedSection is null && Math.Abs((flow.Profile[^1].Pressure / flow.OutletPressure) - 1) > 1e-6)
        {
            return $"not choked, but ends at {flow.Profile[^1].Pressure.Bars:R} bar";
        }

        if (flow.ChokedSection == capillary.Sections.Count - 1 && flow.Exit.EquilibriumSpeedOfSound is { } sound && flow.Profile[^1].VaporMassFraction > 1e-3)
        {
            // At a dew point the speed of sound changes at once: the velocity then lies between both.
            double least = sound.MetersPerSecond;
            double most = least;
            foreach (double beyond in new[] { -0.003, 0.003 })
            {
                double change = beyond * flow.Exit.Pressure.Pascals / flow.Exit.MolarDensity.MolesPerCubicMeter;
                State near = flow.Inlet.Fluid.AtEnthalpy((1 + beyond) * flow.Exit.Pressure, flow.Exit.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(change));
                if (near.Phases.Count != flow.Exit.Phases.Count && near.EquilibriumSpeedOfSound is { } other)
                {
                    least = Math.Min(least, other.MetersPerSecond);
                    most = Math.Max(most, other.MetersPerSecond);
                }
            }

            double miss = Math.Max(0, Math.Max((least / v) - 1, (v / most) - 1));
            worst = Math.Max(worst, miss);
            if (miss > 0.03)
            {
                return FormattableString.Invariant($"choked at {v:G6} m/s, speed of sound {sound.MetersPerSecond:G6} m/s, {flow.Exit}");
            }
        }

        double balance = flow.Outlet.MolarEnthalpy.JoulesPerMole - flow.Inlet.MolarEnthalpy.JoulesPerMole;
        double heat = (double)flow.HeatTakenUp.Watts / flow.MassFlow.KilogramsPerSecond * flow.Inlet.Fluid.Composition.MolarMass.KilogramsPerMole;
        if (Math.Abs(balance - heat) > 0.05 + (1e-5 * Math.Abs(heat)))
        {
            return FormattableString.Invariant($"energy off by {balance - heat:G4} J/mol");
        }

        if (capillary.Exchange is { } exchange)
        {
            double gained = (flow.StreamOutlet!.SpecificEnthalpy - exchange.StreamInlet.SpecificEnthalpy).JoulesPerKilogram * exchange.StreamFlow.KilogramsPerSecond;
            double given = -(double)flow.HeatTakenUp.Watts;
            return Math.Abs(gained - given) > 0.01 + (0.02 * Math.Abs(given)) ? FormattableString.Invariant($"stream takes up {gained:G6} W of {given:G6} W") : null;
        }

        double wider = new Capillary(
            [.. capillary.Sections.Select(s => new CapillarySection(1.03 * s.Bore, s.Length))], twoPhaseViscosity: capillary.TwoPhaseViscosity).FlowTo(flow.Inlet, flow.OutletPressure).MassFlow.KilogramsPerSecond;
        return wider > flow.MassFlow.KilogramsPerSecond * 1.03 ? null : FormattableString.Invariant($"3 % more bore: {wider / flow.MassFlow.KilogramsPerSecond:R} of the flow");
    }
}
