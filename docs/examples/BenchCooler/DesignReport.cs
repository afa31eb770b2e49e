using System.Globalization;
using CryoThermo;
using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Liquefaction;
using CryoThermo.Machines;
using CryoThermo.Substances;
using UnitsNet;

namespace BenchCooler;

/// <summary>Prints a cooler design for its builder: gauge units beside SI, and why a limit is where it is.</summary>
internal static class DesignReport
{
    public static void Write(TextWriter output, CoolerDesign design, CoolerDesign? cubic, IReadOnlyList<FeedCondensationResult> feeds, FreezingRisk? freezing = null, MachineRating? machine = null)
    {
        CoolerDescription cooler = design.Description;
        output.WriteLine(cooler.Title);
        output.WriteLine(new string('=', cooler.Title.Length));
        output.WriteLine();
        WriteAnswer(output, design);
        WriteBlend(output, design);
        WriteLoop(output, design);
        WriteMachine(output, design);
        WriteRecuperator(output, design);
        WriteModels(output, design, cubic);
        WriteCurve(output, design);
        WriteFreezing(output, design, freezing);
        WriteFeeds(output, design, feeds);
        if (machine is not null)
        {
            MachineReport.Write(output, cooler, machine);
        }

        WriteCautions(output, design, machine?.Rating);
    }

    private static void WriteAnswer(TextWriter output, CoolerDesign design)
    {
        CoolerDescription cooler = design.Description;
        string demand = $"The load of {Watts(cooler.Load.Demanded)} at {Both(design.ColdTemperature)}";
        string leak = $"the leak of {Watts(cooler.HeatLeak)}";
        string described = Conductance(cooler.Recuperator.ConductanceWattsPerKelvin);
        if (design.MeetsLoad)
        {
            Wrap(output, $"{demand} is met: {Watts(design.NetCooling)} are left after {leak}.", string.Empty);
        }
        else if (design.NetCooling > Power.Zero)
        {
            Wrap(output, $"{demand} is NOT met: {Watts(design.NetCooling)} are left after {leak}, {Watts(cooler.Load.Demanded - design.NetCooling)} too little.", string.Empty);
        }
        else if (design.Compression.LiquidAtSuction)
        {
            Wrap(
                output,
                $"{demand} is NOT met: liquid comes back to the compressor, so the cooler cannot run like this; its flow, power and cooling below only tell how far off it is.",
                string.Empty);
        }
        else
        {
            Wrap(
                output,
                $"{demand} is NOT met, and this cooler cannot even hold that temperature without a load: after {leak} {Watts(-design.NetCooling)} are missing.",
                string.Empty);
        }

        if (design.RequiredConductanceWattsPerKelvin is { } needed)
        {
            Wrap(
                output,
                design.MeetsLoad
                    ? $"The load and the leak need a recuperator of {Conductance(needed)}; described are {described}."
                    : $"The recuperator is too small: the load and the leak need {Conductance(needed)}; described are {described}.",
                string.Empty);
        }
        else
        {
            string greatest = design.GreatestCooling > Power.Zero
                ? $"a perfect one gives {Watts(design.GreatestCooling)}, load and leak need {Watts(cooler.Load.Demanded + cooler.HeatLeak)}"
                : "with a perfect one there is no cooling at that temperature";
            Wrap(output, $"No recuperator is large enough: {greatest}. What limits it: {design.Limit.Explanation}", string.Empty);
        }

        if (!design.MeetsLoad)
        {
            Wrap(output, $"Without a load the cooler as described reaches {Lowest(design.LowestTemperatureWithConductance)}.", string.Empty);
        }

        if (design.CapacityError is { } error)
        {
            output.WriteLine($"All cooling figures are uncertain by {error.LowPercent:+0;-0;0} to {error.HighPercent:+0;-0;0} %, the known error of the model (see remarks).");
        }

        output.WriteLine();
    }

    private static void WriteBlend(TextWriter output, CoolerDesign design)
    {
        Heading(output, "Blend");
        IReadOnlyList<double> mass = design.Fluid.Composition.ToMassFractions();
        int width = Math.Max(16, design.Fluid.Composition.Components.Max(c => c.Name.Length));
        output.WriteLine($"  {"component".PadRight(width)} mole fraction  mass fraction");
        for (int i = 0; i < mass.Count; i++)
        {
            output.WriteLine($"  {design.Fluid.Composition.Components[i].Name.PadRight(width)} {design.Fluid.Composition.MoleFractions[i],13:0.0000}  {mass[i],13:0.0000}");
        }

        output.WriteLine($"  molar mass {design.Fluid.Composition.MolarMass.GramsPerMole:0.00} g/mol");
        Wrap(output, $"model: {design.Fluid.Model.Name} ({design.Fluid.Model.Source.Publication})", "  ");
        foreach (IGrouping<PairTier, BinaryPair> tier in design.Fluid.Pedigree.Pairs.GroupBy(p => p.Tier).OrderBy(g => g.Key))
        {
            string what = tier.Key switch
            {
                PairTier.Published => "published pairs",
                PairTier.FittedHere => "pairs fitted to named data",
                _ => "ESTIMATED pairs",
            };
            Wrap(output, $"{what}: {string.Join(", ", tier.Select(p => $"{p.First.Name}/{p.Second.Name}"))}", "  ");
        }

        foreach (Source source in design.Fluid.Pedigree.Pairs.Select(p => p.Source).DistinctBy(s => s.Publication))
        {
            Wrap(output, $"pair source: {source.Publication}{(source.FromMemory ? " (from memory)" : string.Empty)}", "  ");
        }

        output.WriteLine();
    }

    private static void WriteLoop(TextWriter output, CoolerDesign design)
    {
        Heading(output, $"Round the loop, cold head outlet held at {design.ColdTemperature.Kelvins:0.0} K");
        Pressure atmosphere = design.Description.Atmosphere;
        output.WriteLine("  place                      T / K    T / degC   p / bar abs  p / bar gauge  vapor   h / J/mol   s / J/(mol K)  phases");
        foreach (LoopPoint point in design.Loop)
        {
            State s = point.State;
            output.WriteLine(
                $"  {point.Place,-22} {s.Temperature.Kelvins,9:0.00} {s.Temperature.DegreesCelsius,11:0.00} {s.Pressure.Bars,12:0.000} {(s.Pressure - atmosphere).Bars,14:0.000} "
                + $"{s.VaporFraction,7:0.0000} {s.MolarEnthalpy.JoulesPerMole,11:0.0} {s.MolarEntropy.JoulesPerMoleKelvin,14:0.000}  {s.PhaseDescription}");
        }

        output.WriteLine();
    }

    private static void WriteMachine(TextWriter output, CoolerDesign design)
    {
        Heading(output, "Compressor");
        CompressorResult c = design.Compression;
        output.WriteLine($"  flow                   {c.MolarFlow.MolesPerSecond:0.0000} mol/s = {c.MassFlow.GramsPerSecond:0.000} g/s");
        output.WriteLine($"  pressure ratio         {c.PressureRatio:0.0}");
        output.WriteLine($"  power into the gas     {Watts(c.Power)}");
        output.WriteLine($"  discharge temperature  {Both(c.Discharge.Temperature)}");
        output.WriteLine($"  heat through the shell {Watts(c.ShellHeat)}");
        output.WriteLine($"  after-cooler rejects   {Watts(design.AfterCoolerHeat)}");
        if (design.PreCoolerHeat is { } heat)
        {
            output.WriteLine($"  pre-cooler takes       {Watts(heat)}");
        }

        output.WriteLine(design.NetCooling > Power.Zero
            ? $"  percent of Carnot      {design.PercentOfCarnot:0.0} % (net cooling, ambient {Both(design.Description.AmbientTemperature)})"
            : "  percent of Carnot      none: no net cooling");
        output.WriteLine();
    }

    private static void WriteRecuperator(TextWriter output, CoolerDesign design)
    {
        Heading(output, "Limit and recuperator");
        output.WriteLine(design.GreatestCooling > Power.Zero
            ? $"  greatest cooling (perfect recuperator)  {Watts(design.GreatestCooling)} = {design.Limit.GreatestCooling.JoulesPerMole:0} J/mol"
            : $"  greatest cooling (perfect recuperator)  none: {-design.Limit.GreatestCooling.JoulesPerMole:0} J/mol are missing");
        output.WriteLine($"  cooling with the described recuperator  {Watts(design.GrossCooling)} before, {Watts(design.NetCooling)} after the leak");
        output.WriteLine($"  limiting pinch                          {Both(design.Limit.PinchTemperature)}");
        Wrap(output, design.Limit.Explanation, "  why                                     ");
        PinchPoint pinch = design.Recuperator.Pinch;
        output.WriteLine(
            $"  closest approach in the recuperator     {pinch.Approach.Kelvins:0.00} K, between {pinch.Hot.Kelvins:0.0} K and {pinch.Cold.Kelvins:0.0} K "
            + $"({Where(pinch.Location)}), duty {Watts(design.Recuperator.Duty)}");
        output.WriteLine($"  lowest temperature, perfect, no leak    {Lowest(design.IdealLowestTemperature)}");
        output.WriteLine($"  lowest temperature, as described        {Lowest(design.LowestTemperatureWithConductance)}");
        output.WriteLine();
    }

    private static void WriteModels(TextWriter output, CoolerDesign design, CoolerDesign? cubic)
    {
        if (cubic is null || cubic.Fluid.Model == design.Fluid.Model)
        {
            return;
        }

        Heading(output, "How much the model matters");
        Wrap(output, $"The same cooler with {cubic.Fluid.Model.Name}, at {Both(design.ColdTemperature)}:", "  ");
        Moved("greatest cooling", design.GreatestCooling, cubic.GreatestCooling);
        Moved("cooling with the described recuperator", design.GrossCooling, cubic.GrossCooling);
        Moved("the same after the leak", design.NetCooling, cubic.NetCooling);
        output.WriteLine();

        void Moved(string what, Power here, Power there) => output.WriteLine(
            $"  {what,-40} {Watts(here),9}, there {Watts(there),9}: {(double)(there - here).Watts:+0.0;-0.0;0.0} W"
            + (here > Power.Zero ? $" ({100 * (double)((there - here) / here):+0;-0;0} %)" : string.Empty));
    }

    private static void WriteCurve(TextWriter output, CoolerDesign design)
    {
        Heading(output, "Cooling against cold temperature");
        output.WriteLine("                       perfect recuperator   described recuperator   described recuperator");
        output.WriteLine("    T / K   T / degC       before leak / W         before leak / W          after leak / W");
        for (int i = 0; i < design.Curve.Count; i += 4)
        {
            CoolingPoint p = design.Curve[i];
            output.WriteLine(
                $"  {p.ColdTemperature.Kelvins,7:0.0} {p.ColdTemperature.DegreesCelsius,10:0.0} {(double)p.GreatestCooling.Watts,21:0.0} {(double)p.GrossCooling.Watts,23:0.0} {(double)p.NetCooling.Watts,23:0.0}");
        }

        output.WriteLine();
    }

    private static void WriteFreezing(TextWriter output, CoolerDesign design, FreezingRisk? freezing)
    {
        if (freezing is null)
        {
            return;
        }

        Heading(output, "What freezes first, where");
        Pressure atmosphere = design.Description.Atmosphere;
        output.WriteLine("                                                               nearest to freezing  freezes at     margin  saturation");
        output.WriteLine("  place                        T / K  T / degC  p / bar gauge  component               K    degC        K       ratio");
        foreach (FreezingRiskPoint point in freezing.Points)
        {
            string nearest = point.Nearest is { } n
                ? $"{n.Component.Name,-18} {Kelvins(n.FreezingTemperature),6} {Celsius(n.FreezingTemperature),7} {Margin(n),8} {Ratio(n),11}{(n.Freezes ? "  FREEZES" : string.Empty)}"
                : "none judged";
            output.WriteLine(
                $"  {point.Place,-27} {point.Temperature.Kelvins,6:0.0} {point.Temperature.DegreesCelsius,9:0.0} {(point.Pressure - atmosphere).Bars,14:0.000}  {nearest}");
        }

        output.WriteLine();
        output.WriteLine("  component            least margin / K  at                           freezes there at / K    degC");
        foreach (IGrouping<string, (FreezingRiskPoint Point, FreezingMargin Margin)> component in freezing.Points
            .SelectMany(point => point.Margins, (point, margin) => (Point: point, Margin: margin))
            .GroupBy(entry => entry.Margin.Component.Name))
        {
            (FreezingRiskPoint point, FreezingMargin least) = component.MinBy(entry => entry.Margin.Margin?.Kelvins ?? double.MaxValue);
            output.WriteLine(
                $"  {component.Key,-20} {Margin(least),16}  {(least.Margin is null ? "-" : point.Place),-27} {Kelvins(least.FreezingTemperature),21} {Celsius(least.FreezingTemperature),7}{(least.Freezes ? "  FREEZES" : string.Empty)}");
        }

        output.WriteLine();
        Wrap(
            output,
            $"Margin: how much colder this place may get before the component freezes; negative where solid forms. Saturation ratio: fugacity over that of the pure solid; 1 freezes. Traces assumed beside the charge: {(freezing.Impurities.Count == 0 ? "none" : string.Join(", ", freezing.Impurities))}.",
            "  ");
        foreach (string note in freezing.Basis.Notes)
        {
            Wrap(output, note, "  - ");
        }

        foreach (Caution caution in freezing.Basis.Cautions)
        {
            Wrap(output, $"{caution.Title}: {caution.Rule}. {caution.Advice}", "  ");
        }

        output.WriteLine();

        static string Kelvins(Temperature? t) => t is { } value ? $"{value.Kelvins:0.0}" : "-";
        static string Celsius(Temperature? t) => t is { } value ? $"{value.DegreesCelsius:0.0}" : "-";
        static string Margin(FreezingMargin m) => m.Margin is { } value ? $"{value.Kelvins:0.0}" : "-";
        static string Ratio(FreezingMargin m) => m.SaturationRatio is >= 0.001 and < 1e4 ? $"{m.SaturationRatio:0.000}" : $"{m.SaturationRatio:0.0E0}";
    }

    private static void WriteFeeds(TextWriter output, CoolerDesign design, IReadOnlyList<FeedCondensationResult> feeds)
    {
        if (feeds.Count == 0)
        {
            return;
        }

        Heading(output, "Condensing a feed gas on this cold end");
        Pressure atmosphere = design.Description.Atmosphere;
        output.WriteLine("              condenses at   first drop        all liquid          let down to   liquid kept   heat from ambient   liquid made");
        output.WriteLine("  feed            K   degC    bar abs    bar abs   bar gauge        bar gauge        % mass               kJ/kg           g/h");
        for (int i = 0; i < feeds.Count; i++)
        {
            FeedCondensationResult feed = feeds[i];
            FeedDescription described = design.Description.Feeds[i];
            string drop = feed.FirstDropPressure is { } first ? $"{first.Bars,10:0.00}" : $"{"-",10}";
            string line = feed.CondensingPressure is { } pressure
                ? $"{pressure.Bars,10:0.00} {(pressure - atmosphere).Bars,11:0.00} {(described.LetDownPressure.Absolute - atmosphere).Bars,16:0.00} "
                    + $"{100 * feed.LiquidKept!.Value.ByMass,13:0.0} {feed.HeatToRemove!.Value.KilojoulesPerKilogram,19:0} {Made(design, feed),13}"
                : $"{"-",10} {"-",11} {(described.LetDownPressure.Absolute - atmosphere).Bars,16:0.00}";
            output.WriteLine($"  {described.Name,-10} {feed.Condensing.Kelvins,6:0.0} {feed.Condensing.DegreesCelsius,6:0.0} {drop} {line}");
            if (feed.Remark is { } remark)
            {
                Wrap(output, $"({remark})", "              ");
            }
        }

        Wrap(
            output,
            "Liquid made: what is left after the let-down if all net cooling goes to one feed; liquid lost to a warm vessel and line is not taken off.",
            "  ");

        output.WriteLine();
    }

    private static string Made(CoolerDesign design, FeedCondensationResult feed)
    {
        double heat = feed.HeatToRemove!.Value.JoulesPerKilogram;
        return design.NetCooling > Power.Zero && heat > 0
            ? $"{(double)design.NetCooling.Watts / heat * 3.6e6 * feed.LiquidKept!.Value.ByMass:0}"
            : "none";
    }

    private static void WriteCautions(TextWriter output, CoolerDesign design, CoolerRating? rating)
    {
        Heading(output, "Cautions (estimates; local codes and licensed practice decide)");

        // The machine as built has the cautions of its own pressures and limits; those that the design has already, as grave, are not told twice.
        IEnumerable<Caution> further = [.. rating?.Cautions ?? [], .. rating?.Reached?.Limits.Cautions ?? []];
        IEnumerable<Caution> untold = further.Where(c => design.Cautions.All(d => d.Title != c.Title || d.Severity < c.Severity));
        foreach (Caution caution in design.Cautions.Concat(untold).OrderByDescending(c => c.Severity))
        {
            output.WriteLine($"  {caution.Severity.ToString().ToUpperInvariant()}: {caution.Title}");
            Wrap(output, caution.Figure);
            Wrap(output, caution.Rule);
            Wrap(output, caution.Advice);
            Wrap(output, $"Source: {caution.Source.Publication}");
        }

        output.WriteLine();
        Heading(output, "Remarks");
        foreach (string remark in design.Remarks)
        {
            Wrap(output, remark, "  - ");
        }

        output.WriteLine();
    }

    internal static void Heading(TextWriter output, string text)
    {
        output.WriteLine(text);
        output.WriteLine(new string('-', text.Length));
    }

    internal static void Wrap(TextWriter output, string text, string first = "      ")
    {
        const int Width = 118;
        string lead = first;
        string line = lead;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length + word.Length + 1 > Width && line.Length > lead.Length)
            {
                output.WriteLine(line.TrimEnd());
                lead = new string(' ', first.Length);
                line = lead;
            }

            line += word + " ";
        }

        output.WriteLine(line.TrimEnd());
    }

    private static string Where(PinchLocation location) => location switch
    {
        PinchLocation.WarmEnd => "warm end",
        PinchLocation.ColdEnd => "cold end",
        _ => "inside",
    };

    private static string Lowest(LowestTemperature? lowest) => lowest is null
        ? "no temperature below its warm end: the leak is not covered even there"
        : lowest.EndOfSearch ? $"below {Both(lowest.Temperature)}, where the search ended" : Both(lowest.Temperature);

    internal static string Both(Temperature temperature) => $"{temperature.Kelvins:0.0} K ({temperature.DegreesCelsius:0.0} degC)";

    private static string Conductance(double value) => $"{value.ToString(value >= 10 ? "0.0" : "G3", CultureInfo.InvariantCulture)} W/K";

    internal static string Watts(Power power) => ((double)power.Watts).ToString("0.0", CultureInfo.InvariantCulture) + " W";

    /// <summary>The message of an exception without what the runtime adds: the parameter's name in brackets, and the value on a second line.</summary>
    internal static string OneLine(string message)
    {
        int end = message.IndexOfAny(['\r', '\n']);
        string line = end < 0 ? message : message[..end];
        int parameter = line.LastIndexOf(" (Parameter '", StringComparison.Ordinal);
        return parameter < 0 ? line : line[..parameter];
    }
}
