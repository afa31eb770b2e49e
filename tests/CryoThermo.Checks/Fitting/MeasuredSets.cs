using CryoThermo.Checks.Values;
using CryoThermo.Fitting;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Fitting;

/// <summary>The check values as measurement sets of the library's fit.</summary>
public static class MeasuredSets
{
    // Boiling and dew temperatures of designated blends are listed to 0.1 K.
    private const double ListedTemperature = 0.2;

    /// <summary>Measured sets of mixtures that a pair fit can use; heat capacities and pure fluids are left out.</summary>
    public static IReadOnlyList<MeasurementSet> OfMixtures(SubstanceCatalog catalog) =>
        [.. CheckValues.Measured.Where(s => s.Components.Count > 1 && IsUsable(s.Kind)).Select(s => Convert(s, catalog))];

    /// <summary>The boiling temperatures, or the dew temperatures, of a designated blend.</summary>
    public static MeasurementSet OfBlend(string designation, bool dew, SubstanceCatalog catalog)
    {
        BlendBoilingPoint blend = CheckValues.Blends.First(b => b.Designation == designation);
        double[] fractions = Normalized([.. blend.MoleFractions.Values]);
        MeasurementUncertainty uncertainty = new() { TemperatureKelvins = ListedTemperature };
        Pressure pressure = Pressure.FromPascals(blend.Pressure);
        Measurement point = dew
            ? Measurement.OfDewTemperature(Temperature.FromKelvins(blend.DewTemperature), pressure, fractions, uncertainty)
            : Measurement.OfBubbleTemperature(Temperature.FromKelvins(blend.BubbleTemperature), pressure, fractions, null, null, uncertainty);
        return new($"{designation} {(dew ? "dew" : "boiling")} temperature", new(blend.Source, blend.FromMemory), [.. blend.MoleFractions.Keys.Select(catalog.Find)], [point]);
    }

    /// <summary>The equimolar excess Gibbs energy of two liquids.</summary>
    public static MeasurementSet OfExcess(string first, string second, SubstanceCatalog catalog)
    {
        ExcessProperty excess = CheckValues.Excess.First(e => e.MoleFractions.ContainsKey(first) && e.MoleFractions.ContainsKey(second));
        return new(
            $"{first}-{second} excess Gibbs energy",
            new(excess.Source, excess.FromMemory),
            [.. excess.MoleFractions.Keys.Select(catalog.Find)],
            [
                Measurement.OfExcessGibbsEnergy(
                    Temperature.FromKelvins(excess.Temperature),
                    [.. excess.MoleFractions.Values],
                    MolarEnergy.FromJoulesPerMole(excess.ExcessGibbsEnergy),
                    new() { ExcessGibbsEnergyJoulesPerMole = excess.Uncertainty }),
            ]);
    }

    private static bool IsUsable(MeasuredKind kind) => kind is MeasuredKind.VaporLiquid or MeasuredKind.Bubble or MeasuredKind.BubbleWithDensity or MeasuredKind.Dew
        or MeasuredKind.LiquidComposition or MeasuredKind.VaporComposition or MeasuredKind.Density or MeasuredKind.SpeedOfSound;

    private static MeasurementSet Convert(MeasuredSet set, SubstanceCatalog catalog)
    {
        Substance[] components = [.. set.Components.Select(catalog.Find)];
        MeasurementUncertainty standard = MeasurementUncertainty.Default;
        MeasurementUncertainty uncertainty = new()
        {
            PressureRelative = Stated(MeasuredQuantity.Pressure)?.Relative ?? standard.PressureRelative,
            LiquidFraction = Stated(MeasuredQuantity.LiquidFraction)?.Absolute ?? 0,
            VaporFraction = Stated(MeasuredQuantity.VaporFraction)?.Absolute ?? standard.VaporFraction,
            DensityRelative = (Stated(MeasuredQuantity.MassDensity) ?? Stated(MeasuredQuantity.MolarDensity))?.Relative ?? standard.DensityRelative,
            SpeedOfSoundRelative = Stated(MeasuredQuantity.SpeedOfSound)?.Relative ?? standard.SpeedOfSoundRelative,
        };
        List<Measurement> points = [];
        for (int i = 0; i < set.Points.Count; i++)
        {
            if (Point(i) is { } point)
            {
                points.Add(point with { Place = $"point {i + 1}" });
            }
        }

        string doi = set.Doi is null ? string.Empty : $", doi {set.Doi}";
        return new(set.Name, new(set.Source + doi, set.FromMemory), components, points);

        StatedUncertainty? Stated(MeasuredQuantity quantity) => set.ExpandedUncertainty.FirstOrDefault(u => u.Quantity == quantity);

        // Pure ends of a set say nothing about a pair.
        Measurement? Point(int i)
        {
            if (set.ValueOf(i, MeasuredQuantity.Temperature) is not { } kelvins || set.ValueOf(i, MeasuredQuantity.Pressure) is not { } pascals)
            {
                return null;
            }

            Temperature temperature = Temperature.FromKelvins(kelvins);
            Pressure pressure = Pressure.FromPascals(pascals);
            if (set.Kind is MeasuredKind.Density or MeasuredKind.SpeedOfSound)
            {
                if (set.FractionsOf(i, MeasuredQuantity.OverallFraction) is not { } overall || IsPure(overall))
                {
                    return null;
                }

                return set.Kind == MeasuredKind.Density
                    ? Measurement.OfDensity(temperature, pressure, Normalized(overall), DensityOf(i, overall)!.Value, uncertainty)
                    : Measurement.OfSpeedOfSound(temperature, pressure, Normalized(overall), Speed.FromMetersPerSecond(set.ValueOf(i, MeasuredQuantity.SpeedOfSound)!.Value), uncertainty);
            }

            if (set.Kind is MeasuredKind.Dew or MeasuredKind.VaporComposition)
            {
                if (set.FractionsOf(i, MeasuredQuantity.VaporFraction) is not { } vapor || IsPure(vapor))
                {
                    return null;
                }

                return set.Kind == MeasuredKind.Dew
                    ? Measurement.OfDewPressure(temperature, pressure, Normalized(vapor), uncertainty)
                    : Measurement.OfVaporComposition(temperature, pressure, Normalized(vapor), uncertainty);
            }

            if (set.FractionsOf(i, MeasuredQuantity.LiquidFraction) is not { } liquid || IsPure(liquid))
            {
                return null;
            }

            double[]? above = set.Kind == MeasuredKind.VaporLiquid ? set.FractionsOf(i, MeasuredQuantity.VaporFraction) : null;
            return Measurement.OfBubblePressure(temperature, pressure, Normalized(liquid), above is null ? null : Normalized(above), DensityOf(i, liquid), uncertainty);
        }

        Density? DensityOf(int i, double[] x)
        {
            if (set.ValueOf(i, MeasuredQuantity.MolarDensity) is { } molar)
            {
                return Density.FromKilogramsPerCubicMeter(molar * components.Select((c, j) => c.MolarMass * x[j]).Sum());
            }

            return set.ValueOf(i, MeasuredQuantity.MassDensity) is { } mass ? Density.FromKilogramsPerCubicMeter(mass) : null;
        }
    }

    private static bool IsPure(double[] fractions) => fractions.Max() > 1 - 1e-6;

    private static double[] Normalized(double[] fractions) => [.. fractions.Select(f => f / fractions.Sum())];
}
