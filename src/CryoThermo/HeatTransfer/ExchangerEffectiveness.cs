using CryoThermo.Diagnostics;
using CryoThermo.Numerics;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Effectiveness of exchangers with constant heat capacities from their transfer units, and back. Exact for the arrangement as idealised. Stateless and
/// thread-safe.
/// </summary>
public static class ExchangerEffectiveness
{
    /// <summary>Most transfer units taken.</summary>
    private const double Most = 1e3;

    /// <summary>Where the relations come from.</summary>
    public static Source Source { get; } = new(
        "W. M. Kays, A. L. London, Compact Heat Exchangers; cross-flow unmixed: J. L. Mason, Proc. 2nd US Nat. Congr. Appl. Mech. (1955) 801",
        FromMemory: true,
        Verified: "counter-flow, parallel and one stream mixed from their equations; cross-flow unmixed by a finite-difference solution");

    /// <summary>Heat passed over the most that the inlet temperatures allow.</summary>
    /// <param name="arrangement">How the streams pass.</param>
    /// <param name="transferUnits">UA over the lesser capacity rate, 0 to 1000.</param>
    /// <param name="capacityRatio">Lesser over greater capacity rate, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Effectiveness(FlowArrangement arrangement, double transferUnits, double capacityRatio)
    {
        double n = Guard.InRange(transferUnits, 0, Most, "transfer units", nameof(transferUnits));
        double c = Guard.InRange(capacityRatio, 0, 1, "of the greater capacity rate", nameof(capacityRatio));
        return arrangement switch
        {
            FlowArrangement.CounterFlow => 1 - AxialConduction.WithoutConduction(n, c),
            FlowArrangement.ParallelFlow => Rise(n * (1 + c)) / (1 + c),
            FlowArrangement.CrossFlowBothUnmixed => Unmixed(n, c),
            FlowArrangement.CrossFlowLesserMixed => c == 0 ? Rise(n) : Rise(Rise(c * n) / c),
            FlowArrangement.CrossFlowGreaterMixed => c == 0 ? Rise(n) : Rise(c * Rise(n)) / c,
            FlowArrangement.OneTemperature => Rise(n),
            _ => throw new ArgumentOutOfRangeException(
                nameof(arrangement), arrangement, $"arrangement is {arrangement}; it must be one of {string.Join(", ", Enum.GetNames<FlowArrangement>())}."),
        };
    }

    /// <summary>Transfer units for an effectiveness.</summary>
    /// <param name="arrangement">How the streams pass.</param>
    /// <param name="effectiveness">Zero up to what 1000 transfer units reach in this arrangement.</param>
    /// <param name="capacityRatio">Lesser over greater capacity rate, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double TransferUnits(FlowArrangement arrangement, double effectiveness, double capacityRatio)
    {
        double greatest = Effectiveness(arrangement, Most, capacityRatio);
        double wanted = Guard.InRange(effectiveness, 0, greatest, "of the greatest duty", nameof(effectiveness));
        return wanted == 0 ? 0
            : wanted >= greatest ? Least(arrangement, greatest, capacityRatio)
            : BracketedRoot.Solve(n => Effectiveness(arrangement, n, capacityRatio) - wanted, 0, Most);
    }

    // Where rounding makes the curve level, its first point.
    private static double Least(FlowArrangement arrangement, double greatest, double ratio)
    {
        double low = 0;
        double high = Most;
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Effectiveness(arrangement, middle, ratio) < greatest ? (middle, high) : (low, middle);
        }

        return high;
    }

    // 1 - exp(-x) with all digits at small x.
    private static double Rise(double x) => x > 40 ? 1 : Math.Min(1, 2 * Math.Exp(-0.5 * x) * Math.Sinh(0.5 * x));

    // Sum over k of the shares of two Poisson distributions above k, over c n: Mason's series.
    private static double Unmixed(double n, double c)
    {
        if (n == 0)
        {
            return 0;
        }

        double m = c * n;
        if (m < 1e-9)
        {
            return Rise(n);
        }

        double logN = -n;
        double logM = -m;
        double aboveN = Rise(n);
        double aboveM = Rise(m);
        double sum = 0;
        for (int k = 0; k < 4000; k++)
        {
            double term = aboveN * aboveM;
            sum += term;
            if (k > m && term < 1e-17 * sum)
            {
                break;
            }

            logN += Math.Log(n / (k + 1));
            logM += Math.Log(m / (k + 1));
            aboveN = Math.Max(0, aboveN - Math.Exp(logN));
            aboveM = Math.Max(0, aboveM - Math.Exp(logM));
        }

        return Math.Min(1, sum / m);
    }
}
