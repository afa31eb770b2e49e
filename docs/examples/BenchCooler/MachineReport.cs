using CryoThermo;
using CryoThermo.Coolers;
using CryoThermo.Coolers.Charging;
using CryoThermo.Coolers.Rating;
using CryoThermo.Design;
using CryoThermo.Machines;
using UnitsNet;
using static BenchCooler.DesignReport;

namespace BenchCooler;

/// <summary>Prints what the machine does as built and filled: pressures that follow from charge and throttle, not held ones.</summary>
internal static class MachineReport
{
    public static void Write(TextWriter output, CoolerDescription cooler, MachineRating machine)
    {
        Heading(output, "The machine as built");
        if (machine.Rating is not { } rating)
        {
            Wrap(output, $"The machine does not run as built and filled: {machine.Refusal}", "  ");
            WriteAdvice(output, machine.Obstacle);
            output.WriteLine();
            return;
        }

        WriteAnswer(output, cooler, rating);
        WriteStates(output, cooler, rating);
        WriteConfidence(output, cooler, machine);
        if ((rating.Reached ?? rating.NoLoad) is { } state)
        {
            WriteCirculating(output, rating, state);
            WriteContents(output, state);
            WriteLosses(output, state);
        }

        WriteCurve(output, cooler, rating);
        WriteLimits(output, cooler, rating);
        foreach (string remark in rating.Remarks)
        {
            Wrap(output, remark, "  - ");
        }

        output.WriteLine();
    }

    private static void WriteAnswer(TextWriter output, CoolerDescription cooler, CoolerRating rating)
    {
        StandingState standing = new StandingCharge(
            rating.Charge.Fluid, rating.Charge.Amount, [new("machine", cooler.Machine!.TotalVolume, rating.AmbientTemperature)], cooler.Atmosphere).At(rating.AmbientTemperature);
        Wrap(
            output,
            $"Charged with {rating.Charge.Mass.Grams:0.0} g ({rating.Charge.Amount.Moles:0.000} mol) in {cooler.Machine.TotalVolume.Liters:0.00} L; at rest in the room {standing.Gauge.Reading.Bars:0.00} bar gauge ({standing.AbsolutePressure.Bars:0.00} bar absolute){(standing.IsGas ? string.Empty : $", {100 * standing.LiquidFraction:0.0} % of it liquid")}.",
            "  ");
        Wrap(
            output,
            rating.Reached is { } reached
                ? $"Started warm with the load of {Watts(rating.Load)} on, it comes to rest at {Both(reached.ColdTemperature)}; asked for are {Both(cooler.Load.ColdTemperature)}."
                : rating.Obstacle is null
                    ? $"It carries the load of {Watts(rating.Load)} at every cold temperature looked at, down to {Both(rating.Curve[^1].ColdTemperature)}; where it comes to rest was not found."
                    : $"Started warm with the load of {Watts(rating.Load)} on, it comes to rest nowhere.",
            "  ");
        Wrap(output, rating.NoLoad is { } empty ? $"Without a load it reaches {Both(empty.ColdTemperature)}." : "No state without a load was found.", "  ");
        foreach (CoolerState other in rating.SteadyStates.Where(s => !ReferenceEquals(s, rating.Reached)))
        {
            Wrap(output, $"The load is also carried at {Both(other.ColdTemperature)}, {(other.IsStable ? "stable, but not reached from warm" : "not stable")}.", "  ");
        }

        WriteAdvice(output, rating.Obstacle);
        if (rating.CapacityError is { } error)
        {
            output.WriteLine($"  All cooling figures are uncertain by {error.LowPercent:+0;-0;0} to {error.HighPercent:+0;-0;0} %, the known error of the model.");
        }

        output.WriteLine();
    }

    private static void WriteStates(TextWriter output, CoolerDescription cooler, CoolerRating rating)
    {
        output.WriteLine("                  cold head          suction, bar     discharge, bar    flow   power  discharge  cooling left  of Carnot");
        output.WriteLine("                  K    degC     gauge  absolute     gauge  absolute     g/s       W       degC             W          %");
        CoolerCurvePoint start = rating.Curve[0];
        Row(
            "warm start", start.ColdTemperature, start.SuctionPressure, start.DischargePressure, start.Flow.MolesPerSecond * start.CirculatingComposition.MolarMass.GramsPerMole,
            start.Power, start.DischargeTemperature, start.NetCooling, "-");
        State("with load", rating.Reached);
        State("without load", rating.NoLoad);
        output.WriteLine();

        void State(string name, CoolerState? state)
        {
            if (state is not null)
            {
                Row(
                    name, state.ColdTemperature, state.SuctionPressure, state.DischargePressure, state.Compression.MassFlow.GramsPerSecond, state.Compression.Power,
                    state.Compression.Discharge.Temperature, state.NetCooling, $"{state.PercentOfCarnot:0.0}");
            }
        }

        void Row(string name, Temperature cold, Pressure low, Pressure high, double flow, Power power, Temperature hot, Power net, string carnot) => output.WriteLine(
            $"  {name,-12} {cold.Kelvins,6:0.0} {cold.DegreesCelsius,7:0.0} {(low - cooler.Atmosphere).Bars,9:0.00} {low.Bars,9:0.00} {(high - cooler.Atmosphere).Bars,9:0.00} {high.Bars,9:0.00} "
            + $"{flow,7:0.000} {(double)power.Watts,7:0} {hot.DegreesCelsius,10:0.0} {(double)net.Watts,13:0.0} {carnot,10}");
    }

    private static void WriteConfidence(TextWriter output, CoolerDescription cooler, MachineRating machine)
    {
        if (machine.NoConfidence is { } without)
        {
            Wrap(output, $"How sure this is was not found: {without}", "  ");
            output.WriteLine();
        }

        if (machine.Confidence is not { } sure)
        {
            return;
        }

        output.WriteLine($"  How sure this is, with the load of {Watts(sure.Rating.Load)}:");
        Wrap(
            output,
            $"With everything as described it rests at {Both(sure.NominalColdTemperature)}. Of 100 machines described like it 90 rest between {Both(sure.ColdTemperature.Least)} and {Both(sure.ColdTemperature.Greatest)}, and {Of100(sure.ProbabilityPercent)} at the {Both(cooler.Load.ColdTemperature)} wanted or colder.",
            "    ");
        Wrap(output, $"Measure first: {sure.MeasureFirst}", "    ");
        output.WriteLine();
        output.WriteLine("    rank  uncertain                                         lower bound / K  upper bound / K  of variance");
        foreach (RestContribution c in sure.Contributions)
        {
            output.WriteLine($"    {c.Rank,4}  {c.Uncertainty.Name,-48} {c.AtLowerBound.Kelvins,16:+0.00;-0.00;0.00} {c.AtUpperBound.Kelvins,16:+0.00;-0.00;0.00} {c.PercentOfVariance,10:0.0} %");
        }

        output.WriteLine();
        Wrap(output, "Bounds: 95 of 100 machines lie within. Kelvins: how much warmer it rests with that alone at its bound; below zero colder.", "    ");
        foreach (IGrouping<string, CoolerUncertainty> source in sure.Contributions.Select(c => c.Uncertainty).GroupBy(u => u.Source.Publication + (u.Source.FromMemory ? ", from memory" : string.Empty)))
        {
            Wrap(output, $"{source.Key}: {string.Join("; ", source.Select(u => u.Name))}.", "    Bounds from ");
        }

        if (sure.LargestDifference is { } difference)
        {
            Wrap(output, $"A few machines drawn at random and solved as they are rest within {difference.Kelvins:0.0} K of what the bounds together tell.", "    ");
        }

        foreach (string remark in sure.Remarks)
        {
            Wrap(output, remark, "    - ");
        }

        output.WriteLine();

        static string Of100(double percent) => percent is > 0 and < 1 ? "less than 1" : percent is > 99 and < 100 ? "more than 99" : $"{percent:0}";
    }

    private static void WriteCirculating(TextWriter output, CoolerRating rating, CoolerState state)
    {
        output.WriteLine($"  What circulates at {state.ColdTemperature.Kelvins:0.0} K, against the charge, mole fractions:");
        Composition charged = rating.Charge.Fluid.Composition;
        Composition circulating = state.CirculatingFluid.Composition;
        for (int i = 0; i < charged.MoleFractions.Count; i++)
        {
            output.WriteLine(
                $"    {charged.Components[i].Name,-24} {charged.MoleFractions[i]:0.0000} -> {circulating.MoleFractions[i]:0.0000}  ({circulating.MoleFractions[i] - charged.MoleFractions[i]:+0.0000;-0.0000;0.0000})");
        }

        output.WriteLine();
    }

    private static void WriteContents(TextWriter output, CoolerState state)
    {
        output.WriteLine($"  What each space holds at {state.ColdTemperature.Kelvins:0.0} K, mol:");
        string[] names = [.. state.CirculatingFluid.Composition.Components.Select(c => c.Name)];
        output.WriteLine($"    {"space",-26}{string.Concat(names.Select(n => $"{n,12}"))}{"all",10}{"liquid",10}");
        foreach (SpaceContent content in state.Contents)
        {
            output.WriteLine($"    {content.Space,-26}{string.Concat(content.Amounts.Select(a => $"{a.Moles,12:0.0000}"))}{content.Total.Moles,10:0.0000}{content.Liquid.Moles,10:0.0000}");
        }

        output.WriteLine();
    }

    private static void WriteLosses(TextWriter output, CoolerState state)
    {
        output.WriteLine($"  Where the work goes at {state.ColdTemperature.Kelvins:0.0} K, exergy lost at room temperature:");
        foreach (ExergyLoss loss in state.ExergyLosses)
        {
            output.WriteLine($"    {loss.Part,-40} {(double)loss.Loss.Watts,8:0.0} W {loss.SharePercent,7:0.0} %");
        }

        output.WriteLine();
    }

    private static void WriteCurve(TextWriter output, CoolerDescription cooler, CoolerRating rating)
    {
        output.WriteLine("  On the way from warm to cold:");
        output.WriteLine("    T / K   T / degC   cooling left / W   suction / bar gauge   discharge / bar gauge   flow / g/s   discharge / degC  flows off / %");
        foreach (CoolerCurvePoint p in rating.Curve)
        {
            output.WriteLine(
                $"  {p.ColdTemperature.Kelvins,7:0.0} {p.ColdTemperature.DegreesCelsius,10:0.0} {(double)p.NetCooling.Watts,18:0.0} {(p.SuctionPressure - cooler.Atmosphere).Bars,21:0.00} {(p.DischargePressure - cooler.Atmosphere).Bars,23:0.00} "
                + $"{p.Flow.MolesPerSecond * p.CirculatingComposition.MolarMass.GramsPerMole,12:0.000} {p.DischargeTemperature.DegreesCelsius,18:0.0} {100 * p.FlowMismatch,14:+0.0;-0.0;0.0}");
        }

        output.WriteLine();
    }

    private static void WriteLimits(TextWriter output, CoolerDescription cooler, CoolerRating rating)
    {
        output.WriteLine("  Limits:");
        int told = 0;
        foreach ((string when, CoolerState? state) in (ReadOnlySpan<(string, CoolerState?)>)[("with load", rating.Reached), ("without load", rating.NoLoad)])
        {
            foreach (LimitCheck check in state?.Limits.Checks.Where(c => c.Verdict != LimitVerdict.Kept) ?? [])
            {
                told++;
                Wrap(output, check.ToString(), $"    {when}: ");
            }
        }

        CompressorLimits limits = rating.Cooler.AppliedLimits;
        CoolerCurvePoint start = rating.Curve[0];
        foreach (LimitCheck check in Of(start).Where(c => c.Verdict != LimitVerdict.Kept))
        {
            told++;
            Wrap(output, check.ToString(), "    warm start: ");
        }

        CoolerCurvePoint highest = rating.Curve.MaxBy(p => p.DischargePressure.Pascals)!;
        if (cooler.Surroundings.HighPressureRelief is { } relief && highest.DischargePressure.Pascals >= relief.Absolute.Pascals)
        {
            told++;
            CoolerCurvePoint? shut = rating.Curve.FirstOrDefault(p => p.DischargePressure.Pascals < relief.Absolute.Pascals);
            Wrap(
                output,
                $"the high side would come to {(highest.DischargePressure - cooler.Atmosphere).Bars:0.0} bar gauge, above the relief's {relief.Reading.Bars:0.0} bar gauge, {(shut is null ? "all the way down" : $"until the cold head is near {Both(shut.ColdTemperature)}")}. Open the throttle wider at the start, or let the compressor by-pass until then; do not set the relief above the rating of the weakest part. Local codes and licensed practice decide.",
                "    relief: ");
        }

        if (told == 0)
        {
            output.WriteLine("    all kept: in the states above, and at the warm start as far as it is computed.");
        }

        IEnumerable<LimitCheck> Of(CoolerCurvePoint p)
        {
            if (limits.DischargeLine is { } line)
            {
                yield return new("discharge line", "K", p.DischargeTemperature.Kelvins, line, IsLeast: false);
            }

            if (limits.PressureRatio is { } ratio)
            {
                yield return new("pressure ratio", string.Empty, p.DischargePressure / p.SuctionPressure, ratio, IsLeast: false);
            }

            if (limits.HighPressureBars is { } high)
            {
                yield return new("high side, absolute", "bar", p.DischargePressure.Bars, high, IsLeast: false);
            }
        }
    }

    private static void WriteAdvice(TextWriter output, CoolerObstacle? obstacle)
    {
        string? advice = obstacle switch
        {
            CoolerObstacle.ChargeTooSmall => "Too little gas circulates: charge more, make the buffer smaller, or open the throttle.",
            CoolerObstacle.ChargeTooLarge => "Too much is charged: charge less, or add a buffer on the suction side.",
            CoolerObstacle.ThrottleTooSmall => "The throttle is too small: open the valve, or take a wider or shorter capillary.",
            CoolerObstacle.ThrottleTooLarge => "The throttle is too large: close the valve, or take a narrower or longer capillary.",
            CoolerObstacle.DischargeTooHot => "The discharge would be too hot: lower the pressure ratio, cool the compressor, or take a charge with less of the light gases.",
            CoolerObstacle.RecuperatorTooNarrow => "The streams lose most of the pressure there is in the recuperator: charge more, or take wider tubes or more of them.",
            CoolerObstacle.PreCooler => "The pre-cooler does not run with this stream.",
            CoolerObstacle.NoCooling => "Nothing gets cold: expansion cools too little, or the leak is too large. Look at charge, pressures and insulation.",
            CoolerObstacle.LoadTooLarge => "The load is too large for this machine at every cold temperature: lower it, or take a larger compressor.",
            CoolerObstacle.LeakNotKnown => "The heat leak is not known so cold: give it as a figure, or take an insulation whose conductivity is known there.",
            CoolerObstacle.OilSaturated => "The oil takes up more gas than can be computed.",
            CoolerObstacle.ModelRange => "States leave the range of the fluid model: try another model, or a charge that stays within it.",
            _ => null,
        };
        if (advice is not null)
        {
            Wrap(output, advice, "  ");
        }
    }
}
