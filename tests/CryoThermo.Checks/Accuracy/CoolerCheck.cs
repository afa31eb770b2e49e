using CryoThermo.Checks.Values;

namespace CryoThermo.Checks.Accuracy;

/// <summary>A figure of a published cooler mixture against what was reported or computed elsewhere. The tolerances stand with the data.</summary>
/// <param name="Mixture">The mixture.</param>
/// <param name="What">The figure, with its conditions.</param>
/// <param name="Model">The model.</param>
/// <param name="Expected">What it is compared with, in words.</param>
/// <param name="Computed">The computed value.</param>
/// <param name="Deviation">How far outside, with its sign; in percent where the unit is.</param>
/// <param name="Limit">What is allowed; null where nothing is stated: shown, not judged.</param>
/// <param name="Unit">Unit of the deviation and its limit.</param>
/// <param name="Figure">The figure of the data file; null for those of the tables.</param>
public sealed record CoolerCheck(
    CoolerMixture Mixture, string What, CoolerModel Model, string Expected, double Computed, double Deviation, double? Limit, string Unit, CoolerFigure? Figure)
{
    private static readonly Lazy<IReadOnlyList<CoolerCheck>> Everything = new(() =>
    {
        CoolerCheck[][] all = new CoolerCheck[CheckValues.CoolerMixtures.Count][];
        Parallel.For(0, all.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i => all[i] = [.. Of(CheckValues.CoolerMixtures[i])]);
        return [.. all.SelectMany(checks => checks)];
    });

    /// <summary>All of them, computed once by two threads.</summary>
    public static IReadOnlyList<CoolerCheck> All => Everything.Value;

    /// <summary>Mixture, figure, what it is compared with, model.</summary>
    public string Subject => $"{Mixture.Name}: {What}, {Expected}, {Model.Name}";

    /// <summary>Whether it is inside of the tolerance; true where there is none.</summary>
    public bool IsMet => Limit is null || Math.Abs(Deviation) <= Limit;

    /// <summary>A quantity in words, with its conditions.</summary>
    public static string Words(CoolerMixture mixture, CoolerFigure figure)
    {
        string pressures = figure.LowPressure is null && figure.HighPressure is null
            ? string.Empty
            : $" between {(figure.LowPressure ?? mixture.LowPressure) / 1e5:G4} and {(figure.HighPressure ?? mixture.HighPressure) / 1e5:G4} bar";
        return figure.Quantity switch
        {
            CoolerQuantity.LowestTemperature => $"lowest temperature from {figure.Warm} K",
            CoolerQuantity.GreatestCooling => $"greatest cooling at {figure.Cold} K from {figure.Warm} K{pressures}",
            CoolerQuantity.PinchTemperature => $"pinch between {figure.Cold} and {figure.Warm} K",
            CoolerQuantity.ShareOfGreatest => $"measured {figure.Measured} J/mol over the greatest cooling at {figure.Cold} K from {figure.Warm} K",
            CoolerQuantity.GainOverPureGas => $"greatest cooling at {figure.Cold} K from {figure.Warm} K over the difference of {figure.PureGas} at 300 K",
            CoolerQuantity.DifferenceOverPureGas => $"difference at {figure.Cold} K over that of {figure.PureGas}",
            CoolerQuantity.DensityRatio => $"density at the high pressure, {figure.Cold} K over {figure.Warm} K",
            CoolerQuantity.BubbleTemperature => "bubble temperature",
            CoolerQuantity.DewTemperature => "dew temperature",
            CoolerQuantity.Glide => "dew less bubble temperature",
            CoolerQuantity.BubblePressure => $"bubble pressure at {figure.Cold} K",
            CoolerQuantity.FirstSolid => "first solid",
            _ => throw new InvalidOperationException($"{figure.Quantity} has no words."),
        };
    }

    /// <summary>The unit of a quantity; empty for a ratio.</summary>
    public static string UnitOf(CoolerQuantity quantity) => quantity switch
    {
        CoolerQuantity.GreatestCooling => "J/mol",
        CoolerQuantity.BubblePressure => "Pa",
        CoolerQuantity.ShareOfGreatest or CoolerQuantity.GainOverPureGas or CoolerQuantity.DifferenceOverPureGas or CoolerQuantity.DensityRatio => string.Empty,
        _ => "K",
    };

    private static IEnumerable<CoolerCheck> Of(CoolerMixture mixture)
    {
        foreach (CoolerFigure figure in mixture.Figures)
        {
            string unit = UnitOf(figure.Quantity);
            foreach (CoolerModel model in figure.IsSameEquation ? [CoolerModel.SameEquation] : CoolerModel.Both)
            {
                double computed = CoolerCalculations.Compute(mixture, figure, model);
                yield return figure.RelativeTolerance is { } part
                    ? new(mixture, Words(mixture, figure), model, Bounds(figure), computed, 100 * ((computed / figure.Only!.Value) - 1), 100 * part, "%", figure)
                    : new(mixture, Words(mixture, figure), model, Bounds(figure), computed, figure.Outside(computed), figure.Tolerance, unit, figure);
            }
        }

        foreach (EnthalpyDifferenceTable table in mixture.Tables.Select(name => CheckValues.Tables.Single(t => t.Name == name)))
        {
            foreach (CoolerModel model in mixture.SameEquationTolerance is null ? CoolerModel.Both : [.. CoolerModel.Both, CoolerModel.SameEquation])
            {
                foreach ((double? there, double? pressure, bool isBubble) in ((double?, double?, bool)[])
                    [
                        (table.BubbleAtLowPressure, table.LowPressure, true),
                        (table.DewAtLowPressure, table.LowPressure, false),
                        (table.BubbleAtHighPressure, table.HighPressure, true),
                        (table.DewAtHighPressure, table.HighPressure, false),
                    ])
                {
                    if (there is { } t && pressure is { } p)
                    {
                        double computed = CoolerCalculations.Boiling(mixture, model, p, isBubble);
                        yield return new(
                            mixture, $"{(isBubble ? "bubble" : "dew")} temperature at {p / 1e5:G4} bar", model, $"{t} K", computed, computed - t, isBubble ? mixture.BubbleTolerance : mixture.DewTolerance, "K", null);
                    }
                }

                foreach (IReadOnlyList<double> row in table.Differences ?? [])
                {
                    double computed = CapacitySection.DifferenceOf(table, model, row[0]);
                    double? limit = ReferenceEquals(model, CoolerModel.SameEquation) ? mixture.SameEquationTolerance : mixture.DifferenceTolerance;
                    yield return new(
                        mixture, $"difference at {row[0]} K between {table.LowPressure / 1e5:G4} and {table.HighPressure / 1e5:G4} bar", model, $"{row[1]} J/mol", computed, 100 * (computed - row[1]) / Math.Abs(row[1]), 100 * limit, "%", null);
                }
            }
        }
    }

    /// <summary>The figure or bounds in words, without the unit of a ratio.</summary>
    public static string Bounds(CoolerFigure figure)
    {
        string unit = UnitOf(figure.Quantity) is { Length: > 0 } u ? " " + u : string.Empty;
        return (figure.Least, figure.Greatest) switch
        {
            ({ } least, { } greatest) when least == greatest => $"{least}{unit}",
            ({ } least, { } greatest) => $"{least} to {greatest}{unit}",
            ({ } least, null) => $"at least {least}{unit}",
            (null, { } greatest) => $"at most {greatest}{unit}",
            _ => throw new InvalidOperationException("A figure without a value."),
        };
    }
}
