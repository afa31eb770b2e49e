using CryoThermo.Machines;

namespace CryoThermo.Design;

/// <summary>An evaluation in plain numbers, with what the local search needs beside. SI, molar.</summary>
internal sealed class BlendFigures
{
    public required double[] Fractions { get; init; }

    public required double Low { get; init; }

    public required double High { get; init; }

    /// <summary>Local minima of the difference from the warm end down, the least among them.</summary>
    public required LeastPoint[] Minima { get; init; }

    public required double Capacity { get; init; }

    public required double PinchTemperature { get; init; }

    public required PinchLocation Pinch { get; init; }

    /// <summary>Difference of the streams, the approach apart, at a temperature of the low-pressure one, J/mol.</summary>
    public required Func<double, double> Difference { get; init; }

    public double PerSuctionVolume { get; init; }

    public double Work { get; init; } = double.NaN;

    public double PercentOfCarnot { get; init; } = double.NaN;

    public double LowestTemperature { get; init; } = double.NaN;

    public double PerConductance { get; init; } = double.NaN;

    public double Cooling { get; init; } = double.NaN;

    public double SuctionTemperature { get; init; }

    public double DischargeTemperature { get; init; } = double.NaN;

    public required MarginFigure[] Margins { get; init; }

    /// <summary>Sum of all violations in units of their scales; zero when every limit is kept.</summary>
    public double Violation { get; init; }

    /// <summary>Weighted sum of the logarithms of the goals; minus infinity where one is not reached.</summary>
    public double Merit { get; init; }

    /// <summary>The same for each goal alone, unweighted, higher is better.</summary>
    public required double[] GoalLogs { get; init; }

    /// <summary>Feasible first, then by merit.</summary>
    public bool IsBetterThan(BlendFigures? other)
    {
        if (other is null)
        {
            return true;
        }

        return Violation > 0 || other.Violation > 0
            ? Violation < other.Violation || (Violation == other.Violation && Merit > other.Merit)
            : Merit > other.Merit;
    }
}
