using CryoThermo.Diagnostics;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A compressor from measured points. Clearance and filling by least squares of the relative deviations of flow, the efficiency as a curve in the logarithm of the
/// pressure ratio by least squares of its own logarithm. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Volume drawn in = swept volume x factor x [1 - C (density ratio - 1)] is linear in two figures: the factor and the product of factor and C. Only the product of swept
/// volume and factor shows in the flow; the swept volume splits it.
/// </remarks>
public sealed class CompressorFit
{
    private const double GreatestClearance = 0.3;

    private CompressorFit(Compressor compressor, IReadOnlyList<CompressorResidual> residuals, int efficiencyDegree, IReadOnlyList<string> remarks)
    {
        Compressor = compressor;
        Residuals = residuals;
        EfficiencyDegree = efficiencyDegree;
        Remarks = remarks;
    }

    /// <summary>The fitted machine.</summary>
    public Compressor Compressor { get; }

    /// <summary>Each point against the fitted machine.</summary>
    public IReadOnlyList<CompressorResidual> Residuals { get; }

    /// <summary>Degree of the efficiency's logarithm in that of the pressure ratio: 0 for fewer than three ratios, 1 for three or four, else 2.</summary>
    public int EfficiencyDegree { get; }

    /// <summary>What was taken instead of fitted.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>Root mean square of the relative deviations of flow; null where none was measured.</summary>
    public double? FlowDeviation => Deviation(Residuals.Select(r => r.Flow));

    /// <summary>Root mean square of the relative deviations of power; null where none was measured.</summary>
    public double? PowerDeviation => Deviation(Residuals.Select(r => r.Power));

    /// <summary>Fits.</summary>
    /// <param name="readings">Two or more with a flow, at pressure ratios at least a tenth apart, and one or more with a power.</param>
    /// <param name="sweptVolumeFlow">Displacement times speed.</param>
    /// <param name="shellHeatLossFraction">Share of the power that leaves as heat through the shell, 0 to 0.95; it is not fitted.</param>
    /// <exception cref="ArgumentException">There are too few points, or they ask for more than the swept volume or a perfect machine gives.</exception>
    public static CompressorFit Of(IReadOnlyList<CompressorReading> readings, VolumeFlow sweptVolumeFlow, double shellHeatLossFraction = 0)
    {
        ArgumentNullException.ThrowIfNull(readings);
        double swept = Guard.Positive(sweptVolumeFlow.CubicMetersPerSecond, "m3/s", nameof(sweptVolumeFlow));
        Guard.InRange(shellHeatLossFraction, 0, 0.95, "of the power");
        Point[] points = [.. readings.Select(r => new Point(r))];
        List<string> remarks = [];
        CylinderFilling filling = Filling([.. points.Where(p => p.Reading.MassFlow is not null)], swept, remarks);
        (PressureRatioCurve curve, int degree) = Curve([.. points.Where(p => p.Reading.Power is not null)], p => p.Flow ?? FlowOf(p), remarks);
        Compressor compressor = new(sweptVolumeFlow, filling, curve, shellHeatLossFraction);
        return new(
            compressor,
            [
                .. points.Select(p =>
                {
                    double flow = FlowOf(p);
                    double power = flow * p.Rise / curve.At(p.Ratio);
                    return new CompressorResidual(
                        p.Reading, p.Flow is { } measured ? (flow / measured) - 1 : null, p.Reading.Power is { } watts ? (power / (double)watts.Watts) - 1 : null);
                }),
            ],
            degree,
            remarks);

        double FlowOf(Point p)
        {
            double volumetric = filling.VolumetricEfficiency(p.DensityRatio);
            return volumetric > 0
                ? swept * volumetric * p.Density
                : throw new ArgumentException(
                    $"readings: with the clearance of {100 * filling.ClearanceFraction:F2} % that the flows tell, nothing is drawn in at the pressure ratio of {p.Ratio:G4} of another point.", nameof(readings));
        }
    }

    /// <summary>The points against the fitted machine as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"Clearance {100 * Compressor.Filling.ClearanceFraction:F2} %, filling without it {100 * Compressor.Filling.VolumetricEfficiency(1):F1} %",
        ["suction, bar", "discharge, bar", "flow, % off", "power, % off"],
        [.. Residuals.Select(r => (IReadOnlyList<string>)
        [
            $"{r.Reading.Suction.Pressure.Bars:F3}",
            $"{r.Reading.DischargePressure.Bars:F3}",
            r.Flow is { } f ? $"{100 * f:F2}" : string.Empty,
            r.Power is { } p ? $"{100 * p:F2}" : string.Empty,
        ])]);

    private static CylinderFilling Filling(Point[] points, double swept, List<string> remarks)
    {
        if (Distinct(points) < 2)
        {
            throw Fault(
                $"readings has {points.Length} with a flow, at {Distinct(points)} pressure ratio(s); two at pressure ratios at least a tenth apart are needed to tell clearance from leaks. With one, take a class value: RatedCompressor.");
        }

        // Rows over the measured flow, so that relative deviations are squared: factor - product (density ratio - 1) = volume drawn in over swept volume.
        Matrix<double> rows = Matrix<double>.Build.Dense(points.Length, 2, (i, j) => (j == 0 ? 1 : 1 - points[i].DensityRatio) * swept * points[i].Density / points[i].Flow!.Value);
        Vector<double> ones = Vector<double>.Build.Dense(points.Length, 1);
        Vector<double> found = rows.QR().Solve(ones);
        double factor = found[0];
        double clearance = found[1] / factor;
        if (!(clearance >= 0))
        {
            // With the clearance held at zero one figure is left.
            Vector<double> column = rows.Column(0);
            factor = column.Sum() / column.DotProduct(column);
            clearance = 0;
            remarks.Add("The flows do not fall with the pressure ratio as a clearance makes them: it was taken as zero.");
        }

        if (!(factor > 0 && factor <= 1))
        {
            throw Fault(
                $"readings: the flows ask for {100 * factor:F1} % of the swept volume without clearance; at most 100 % can be. Check sweptVolumeFlow ({swept * 1e3:G5} L/s), flows and fluid.");
        }

        return clearance <= GreatestClearance
            ? new(clearance, 0, factor)
            : throw Fault(
                $"readings: the flows ask for a clearance of {100 * clearance:F1} %; at most {100 * GreatestClearance:F0} % are believed. Leaks that grow with pressure look like this.");
    }

    private static (PressureRatioCurve Curve, int Degree) Curve(Point[] points, Func<Point, double> flow, List<string> remarks)
    {
        if (points.Length == 0)
        {
            throw Fault("readings has none with a power; at least one is needed for the efficiency.");
        }

        foreach (Point p in points)
        {
            double efficiency = flow(p) * p.Rise / (double)p.Reading.Power!.Value.Watts;
            if (!(efficiency <= 1))
            {
                throw Fault(
                    $"readings: at {p.Reading.Suction.Pressure.Bars:G4} to {p.Reading.DischargePressure.Bars:G4} bar the power of {p.Reading.Power.Value.Watts:G5} W is less than a perfect machine takes ({flow(p) * p.Rise:G5} W).");
            }
        }

        int distinct = Distinct(points);
        int degree = distinct >= 5 ? 2 : distinct >= 3 ? 1 : 0;
        double[] x = [.. points.Select(p => Math.Log(p.Ratio))];
        double[] y = [.. points.Select(p => Math.Log(flow(p) * p.Rise / (double)p.Reading.Power!.Value.Watts))];
        Vector<double> c = Matrix<double>.Build.Dense(points.Length, degree + 1, (i, j) => Math.Pow(x[i], j)).QR().Solve(Vector<double>.Build.Dense(y));
        if (degree == 0)
        {
            remarks.Add($"The power was measured at {distinct} pressure ratio(s): one efficiency was taken for all; three are needed for a slope, five for a curve.");
            return (PressureRatioCurve.Constant(Math.Min(1, Math.Exp(c[0]))), degree);
        }

        // A close row of points: what lies between them is within 1e-4 of the polynomial.
        const int steps = 24;
        double low = x.Min();
        double high = x.Max();
        List<(double, double)> row = [];
        for (int i = 0; i <= steps; i++)
        {
            double at = low + ((high - low) * i / steps);
            double efficiency = Math.Exp(c[0] + (c[1] * at) + (degree == 2 ? c[2] * at * at : 0));
            row.Add((Math.Exp(at), Math.Min(1, efficiency)));
        }

        return (new(row, new("fitted to measured points", FromMemory: false)), degree);
    }

    // What the points ask for is a fault of the points.
    private static ArgumentException Fault(string message, string parameter = "readings") => new(message, parameter);

    private static int Distinct(Point[] points)
    {
        int count = 0;
        double last = 0;
        foreach (double ratio in points.Select(p => p.Ratio).Order())
        {
            if (ratio >= 1.1 * last)
            {
                count++;
                last = ratio;
            }
        }

        return count;
    }

    private static double? Deviation(IEnumerable<double?> residuals)
    {
        double[] given = [.. residuals.OfType<double>()];
        return given.Length == 0 ? null : Math.Sqrt(given.Sum(r => r * r) / given.Length);
    }

    private sealed class Point
    {
        public Point(CompressorReading reading)
        {
            ArgumentNullException.ThrowIfNull(reading);
            Reading = reading;
            State suction = reading.Suction;
            State isentropic = suction.Fluid.AtEntropy(reading.DischargePressure, suction.MolarEntropy);
            Density = suction.MolarDensity.MolesPerCubicMeter;
            DensityRatio = Math.Max(1, isentropic.MolarDensity.MolesPerCubicMeter / Density);
            Rise = isentropic.MolarEnthalpy.JoulesPerMole - suction.MolarEnthalpy.JoulesPerMole;
            Ratio = reading.DischargePressure.Pascals / suction.Pressure.Pascals;
            Flow = reading.MassFlow is { } mass ? mass.KilogramsPerSecond / suction.Fluid.Composition.MolarMass.KilogramsPerMole : null;
        }

        public CompressorReading Reading { get; }

        public double Density { get; }

        public double DensityRatio { get; }

        public double Rise { get; }

        public double Ratio { get; }

        public double? Flow { get; }
    }
}
