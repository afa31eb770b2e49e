using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using CryoThermo.Machines;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random recuperators of tubes: pure fluids and blends of up to five components, straight and coiled, one tube, several, or two side by side, some with heat from
/// outside. Each is solved, and held against states of its own, or refused with the reason.
/// </summary>
public static class ExchangerSoak
{
    private static readonly string[] Pool =
    [
        "nitrogen", "argon", "oxygen", "methane", "ethylene", "ethane", "propylene", "propane", "isobutane", "n-butane", "isopentane", "R-14", "R-23", "R-134a", "krypton", "neon", "hydrogen", "helium",
    ];

    /// <summary>Of the counts 1 is with both streams of one phase where they leave, 2 with two phases somewhere; every third case by the recommended model, the others by Peng-Robinson.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        CaseRandom random = new(seed, number);
        int count = 1 + random.Whole(5);
        string[] names = [.. Enumerable.Range(0, 60).Select(_ => Pool[random.Whole(Pool.Length)]).Distinct().Take(count)];
        double[] z = new double[names.Length];
        random.Simplex(z, 1);
        bool isRecommended = number % 3 == 2;
        double warm = random.Uniform(230, 330);
        double cold = random.Uniform(75, warm - 5);
        double high = Math.Exp(random.Uniform(Math.Log(3), Math.Log(80)));
        double low = high * Math.Exp(random.Uniform(-3.5, -0.3));
        double flow = Math.Exp(random.Uniform(Math.Log(0.1), Math.Log(10)));
        double tube = Math.Exp(random.Uniform(Math.Log(2), Math.Log(12)));
        double wall = random.Uniform(0.05, 0.2) * tube;
        int tubes = random.Whole(3) == 0 ? 2 + random.Whole(6) : 1;
        double shell = tube * (tubes == 1 ? random.Uniform(1.3, 3) : random.Uniform(3.2, 5));
        double length = Math.Exp(random.Uniform(Math.Log(0.2), Math.Log(80)));
        double? bend = random.Whole(2) == 0 ? random.Uniform(8, 60) * shell : null;
        bool isSideBySide = random.Whole(5) == 0;
        double leak = random.Whole(3) == 0 ? Math.Exp(random.Uniform(Math.Log(1e-3), Math.Log(0.3))) : 0;
        double less = random.Whole(4) == 0 ? random.Uniform(0.7, 1) : 1;
        string inputs = FormattableString.Invariant(
            $"seed {seed} case {number}: {string.Join(", ", names.Zip(z, (n, x) => FormattableString.Invariant($"{n} {x:R}")))} {(isRecommended ? "recommended" : "Peng-Robinson")} {warm:R} K {high:R} bar, {cold:R} K {low:R} bar, {flow:R} g/s (x {less:R}), {tubes} x {tube:R} x {wall:R} mm in {shell:R} mm, {length:R} m, coil {bend:R} mm, {(isSideBySide ? "side by side, " : string.Empty)}leak {leak:R} W/(m K)");
        try
        {
            WorkingFluid fluid = names.Length == 1 ? WorkingFluid.Pure(names[0]) : WorkingFluid.Mixture([.. names.Zip(z)]);
            fluid = isRecommended ? fluid : fluid.WithModel(FluidModel.PengRobinson);
            State hotInlet = fluid.At(Temperature.FromKelvins(warm), Pressure.FromBars(high));
            State coldInlet = fluid.At(Temperature.FromKelvins(cold), Pressure.FromBars(low));
            if (hotInlet.HasUnresolvedPhase || coldInlet.HasUnresolvedPhase)
            {
                return new(null, 0, true, 0);
            }

            SolidMaterial copper = SolidMaterial.Named("copper RRR 50");
            TubeWall inner = new(copper, Length.FromMillimeters(tube), Length.FromMillimeters(wall));
            TubeWall outer = new(copper, Length.FromMillimeters(shell + (2 * wall)), Length.FromMillimeters(wall));
            Length? coiled = bend is { } b ? Length.FromMillimeters(b) : null;
            TubeRecuperator exchanger = isSideBySide
                ? TubeRecuperator.SideBySide(
                    Length.FromMeters(length), inner, outer, Length.FromMillimeters(0.3 * tube), Length.FromMillimeters(0.3), ThermalConductivity.FromWattsPerMeterKelvin(50), coiled)
                : TubeRecuperator.TubesInTube(Length.FromMeters(length), inner, outer, tubes, coiled, random.Whole(4) > 0);
            RecuperatorStreams streams = new(
                hotInlet,
                MassFlow.FromGramsPerSecond(flow),
                coldInlet,
                MassFlow.FromGramsPerSecond(less * flow),
                leak > 0 ? new(Temperature.FromKelvins(298), leak) : null);
            TubeRecuperatorRating rating = exchanger.Rate(streams);
            double worst = 0;
            string? wrong = Wrong(rating, ref worst);
            int kind = rating.Points.All(p => p.HotVaporMassFraction is 0 or 1 && p.ColdVaporMassFraction is 0 or 1) ? 1 : 2;
            return new(wrong is null ? null : $"{inputs}: {wrong}", kind, false, worst);
        }
        catch (Exception e) when (e is ArgumentOutOfRangeException || (e is ConvergenceException c && c.Advice.StartsWith("Heat from outside", StringComparison.Ordinal)))
        {
            // Outside the model, a pressure that runs out, or more heat from outside than there is to exchange.
            return new(null, 0, true, 0);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return new($"{inputs}: {e.GetType().Name} {e.Message}", 0, false, 0);
        }
    }

    private static string? Wrong(TubeRecuperatorRating rating, ref double worst)
    {
        RecuperatorStreams streams = rating.Streams;
        double given = streams.HotFlow.KilogramsPerSecond * (streams.HotInlet.SpecificEnthalpy - rating.HotOutlet.SpecificEnthalpy).JoulesPerKilogram;
        double taken = streams.ColdFlow.KilogramsPerSecond * (rating.ColdOutlet.SpecificEnthalpy - streams.ColdInlet.SpecificEnthalpy).JoulesPerKilogram;
        double leak = (double)rating.HeatFromSurroundings.Watts;
        double size = Math.Max(Math.Abs(given), Math.Abs(taken));
        double off = Math.Abs(taken - given - leak) / size;
        worst = Math.Max(worst, off);
        if (!(off < 1e-4))
        {
            return FormattableString.Invariant($"given {given:R}, taken {taken:R}, from outside {leak:R} W");
        }

        double made = (streams.HotFlow.KilogramsPerSecond * (rating.HotOutlet.SpecificEntropy - streams.HotInlet.SpecificEntropy).JoulesPerKilogramKelvin)
            + (streams.ColdFlow.KilogramsPerSecond * (rating.ColdOutlet.SpecificEntropy - streams.ColdInlet.SpecificEntropy).JoulesPerKilogramKelvin)
            - (streams.Surroundings is { } around ? leak / around.Temperature.Kelvins : 0);
        if (!(made > -1e-6 * size / streams.ColdInlet.Temperature.Kelvins))
        {
            return FormattableString.Invariant($"entropy falls by {-made:R} W/K");
        }

        if (Math.Abs(rating.HotOutlet.Temperature.Kelvins - rating.Points[^1].HotTemperature.Kelvins) > 0.5
            || Math.Abs(rating.ColdOutlet.Temperature.Kelvins - rating.Points[0].ColdTemperature.Kelvins) > 0.5)
        {
            return FormattableString.Invariant(
                $"ends at {rating.Points[^1].HotTemperature.Kelvins:R} and {rating.Points[0].ColdTemperature.Kelvins:R} K, by states {rating.HotOutlet.Temperature.Kelvins:R} and {rating.ColdOutlet.Temperature.Kelvins:R} K");
        }

        if (streams.Surroundings is null && rating.Points.Any(p => p.HotTemperature.Kelvins < p.ColdTemperature.Kelvins - 0.02))
        {
            return FormattableString.Invariant($"the streams cross by {rating.Points.Max(p => p.ColdTemperature.Kelvins - p.HotTemperature.Kelvins):R} K");
        }

        if (!(rating.ConductanceWattsPerKelvin.Least < rating.ConductanceWattsPerKelvin.Nominal && rating.ConductanceWattsPerKelvin.Nominal < rating.ConductanceWattsPerKelvin.Greatest))
        {
            return FormattableString.Invariant(
                $"conductance {rating.ConductanceWattsPerKelvin.Nominal:R} not between {rating.ConductanceWattsPerKelvin.Least:R} and {rating.ConductanceWattsPerKelvin.Greatest:R}");
        }

        double contents = (rating.HotContent + rating.ColdContent).Kilograms;
        return contents > 0 && double.IsFinite(contents) ? null : FormattableString.Invariant($"content {contents:R} kg");
    }
}
