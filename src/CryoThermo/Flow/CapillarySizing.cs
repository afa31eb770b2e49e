using System.Globalization;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// A capillary sized for a flow in the cold machine, with what tolerances make of it and what passes it on the warm start. Immutable and
/// thread-safe.
/// </summary>
public sealed class CapillarySizing
{
    private CapillarySizing(
        CapillaryFlow nominal, Length boreTolerance, MassFlow leastFlow, MassFlow greatestFlow, Length? leastLength, Length? greatestLength, IReadOnlyList<MassFlow> byRule, WarmStart? warmStart)
    {
        Nominal = nominal;
        BoreTolerance = boreTolerance;
        LeastFlow = leastFlow;
        GreatestFlow = greatestFlow;
        LeastLength = leastLength;
        GreatestLength = greatestLength;
        FlowsByViscosityRule = byRule;
        WarmStart = warmStart;
    }

    /// <summary>The flow through the capillary of the bore told and the length found.</summary>
    public CapillaryFlow Nominal { get; }

    /// <summary>Tolerance of the bore, either way.</summary>
    public Length BoreTolerance { get; }

    /// <summary>Flow through the length found if the bore is narrower by the tolerance.</summary>
    public MassFlow LeastFlow { get; }

    /// <summary>Flow through the length found if the bore is wider by the tolerance.</summary>
    public MassFlow GreatestFlow { get; }

    /// <summary>Length that the narrower bore needs; null where it is outside 1 mm to 100 m.</summary>
    public Length? LeastLength { get; }

    /// <summary>Length that the wider bore needs; null where it is outside 1 mm to 100 m.</summary>
    public Length? GreatestLength { get; }

    /// <summary>Flow through the length found by each rule of <see cref="TwoPhaseViscosity"/>, in its order: how far the model is unsure of friction in two phases.</summary>
    public IReadOnlyList<MassFlow> FlowsByViscosityRule { get; }

    /// <summary>The start from warm; null where no warm state was given.</summary>
    public WarmStart? WarmStart { get; }

    /// <summary>Finds the length.</summary>
    /// <param name="bore">Inner diameter, 0.07 to 19.9 mm.</param>
    /// <param name="inlet">The fluid before the capillary in the cold machine.</param>
    /// <param name="outletPressure">Absolute pressure behind it.</param>
    /// <param name="flow">Mass flow wanted.</param>
    /// <param name="boreTolerance">Tolerance of the bore, either way, below half of it; null for 0.02 mm (drawn copper capillary, common practice, no source).</param>
    /// <param name="warmInlet">The fluid before the capillary on the start from warm; null to leave that out.</param>
    /// <param name="warmDelivery">Mass flow that the compressor delivers then; null where it is not known.</param>
    /// <param name="greatestPressure">Highest pressure the machine may come to, absolute; null for twice that of the warm inlet.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or no length passes that flow.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public static CapillarySizing ForLength(
        Length bore,
        State inlet,
        Pressure outletPressure,
        MassFlow flow,
        Length? boreTolerance = null,
        State? warmInlet = null,
        MassFlow? warmDelivery = null,
        Pressure? greatestPressure = null)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        Length tolerance = boreTolerance ?? Length.FromMillimeters(Math.Min(0.02, 0.2 * bore.Millimeters));
        Guard.InRange(tolerance.Millimeters, 0, 0.5 * bore.Millimeters, "mm", nameof(boreTolerance));
        const double AnyLength = 1;
        Capillary start = new(bore, Length.FromMeters(AnyLength));
        CapillaryFlow nominal = start.LengthFor(inlet, outletPressure, flow);
        Capillary found = nominal.Capillary;
        Capillary narrow = found.WithBore((bore - tolerance).Meters);
        Capillary wide = found.WithBore((bore + tolerance).Meters);
        return new(
            nominal,
            tolerance,
            narrow.FlowTo(inlet, outletPressure).MassFlow,
            wide.FlowTo(inlet, outletPressure).MassFlow,
            LengthOf(narrow),
            LengthOf(wide),
            [.. Enum.GetValues<TwoPhaseViscosity>().Select(rule => new Capillary(found.Sections, found.EntranceLoss, rule).FlowTo(inlet, outletPressure).MassFlow)],
            warmInlet is null ? null : WarmStart.Of(found, inlet, warmInlet, outletPressure, warmDelivery, greatestPressure));

        Length? LengthOf(Capillary capillary)
        {
            try
            {
                return capillary.LengthFor(inlet, outletPressure, flow).Capillary.Length;
            }
            catch (ArgumentOutOfRangeException)
            {
                return null;
            }
        }
    }

    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable()
    {
        CapillarySection section = Nominal.Capillary.Sections[0];
        List<IReadOnlyList<string>> rows =
        [
            ["length, m", Text($"{Nominal.Capillary.Length.Meters:0.000}")],
            ["flow, g/s", Text($"{Nominal.MassFlow.GramsPerSecond:0.0000}")],
            [Text($"bore {(section.Bore - BoreTolerance).Millimeters:0.000} mm: flow, g/s"), Text($"{LeastFlow.GramsPerSecond:0.0000}")],
            [Text($"bore {(section.Bore + BoreTolerance).Millimeters:0.000} mm: flow, g/s"), Text($"{GreatestFlow.GramsPerSecond:0.0000}")],
            [Text($"bore {(section.Bore - BoreTolerance).Millimeters:0.000} mm: length for the flow, m"), LeastLength is { } least ? Text($"{least.Meters:0.000}") : "none"],
            [Text($"bore {(section.Bore + BoreTolerance).Millimeters:0.000} mm: length for the flow, m"), GreatestLength is { } most ? Text($"{most.Meters:0.000}") : "none"],
            ["flow by the viscosity rules, g/s", string.Join(", ", Enum.GetValues<TwoPhaseViscosity>().Zip(FlowsByViscosityRule, (rule, m) => Text($"{rule} {m.GramsPerSecond:0.0000}")))],
            ["choked", Nominal.IsChoked ? Text($"yes, at {Nominal.Exit.Pressure.Bars:0.00} bar absolute") : "no"],
        ];
        if (WarmStart is { } warm)
        {
            rows.Add(["flow on the warm start, g/s", Text($"{warm.Warm.MassFlow.GramsPerSecond:0.0000}")]);
            rows.Add(["of the flow when cold, %", Text($"{100 * warm.FlowShare:0.0}")]);
            if (warm.PressureNeeded is { } needed)
            {
                rows.Add(["high pressure that passes what the warm compressor delivers, bar absolute", Text($"{needed.Bars:0.00}")]);
            }

            rows.AddRange(warm.Cautions.Select(c => (IReadOnlyList<string>)[c.Title, c.Advice]));
        }

        return new(Text($"Capillary of {section.Bore.Millimeters:0.000} mm from {Nominal.Inlet.Pressure.Bars:0.00} bar, {Nominal.Inlet.Temperature.Kelvins:0.0} K to {Nominal.OutletPressure.Bars:0.00} bar absolute"), ["figure", "value"], rows);

        static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
