using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// The trial phases at which the tangent-plane distance of a stable state is stationary, other than its own phases. From one state to its
/// neighbour they move little: the phase that comes next mostly is one of them, with a distance on its way to zero.
/// </summary>
internal sealed class StationaryTrials
{
    // More are not met; a start that finds another is forgotten, and a test with every start finds it again.
    private const int Most = 12;

    private readonly int components;
    private readonly double[] lnAmount;
    private readonly DensityRoot[] root = new DensityRoot[Most];

    /// <summary>None yet.</summary>
    /// <param name="components">Number of components.</param>
    public StationaryTrials(int components)
    {
        this.components = components;
        lnAmount = new double[Most * components];
    }

    /// <summary>Those of two states.</summary>
    public StationaryTrials(StationaryTrials first, StationaryTrials second)
        : this(first.components)
    {
        first.lnAmount.CopyTo(lnAmount, 0);
        first.root.CopyTo(root, 0);
        Count = first.Count;
        for (int k = 0; k < second.Count; k++)
        {
            Add(second.LnAmounts(k), second.Root(k));
        }
    }

    /// <summary>How many there are.</summary>
    public int Count { get; private set; }

    /// <summary>ln of the amounts of one, component by component; minus infinity for those that are absent.</summary>
    public ReadOnlySpan<double> LnAmounts(int index) => lnAmount.AsSpan(index * components, components);

    /// <summary>The density root it was found with.</summary>
    public DensityRoot Root(int index) => root[index];

    /// <summary>Adds one unless it is there already.</summary>
    public void Add(ReadOnlySpan<double> trial, DensityRoot found)
    {
        for (int k = 0; k < Count; k++)
        {
            if (root[k] == found && IsSame(LnAmounts(k), trial))
            {
                return;
            }
        }

        if (Count < Most)
        {
            trial.CopyTo(lnAmount.AsSpan(Count * components));
            root[Count++] = found;
        }
    }

    private static bool IsSame(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        for (int i = 0; i < a.Length; i++)
        {
            if (!double.IsNegativeInfinity(a[i]) && Math.Abs(Math.Exp(a[i]) - Math.Exp(b[i])) > 1e-3)
            {
                return false;
            }
        }

        return true;
    }
}
