using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// Stands in for multi-fluid pairs that nobody has published or fitted: gamma = beta = 1. No error band is known for it yet; it is poor where the
/// critical temperatures are far apart.
/// </summary>
internal sealed class MultiFluidPairEstimator
{
    private static readonly Source Rule = new("estimated: Lorentz rule for the reducing volume, Berthelot rule for the reducing temperature", FromMemory: true);

    /// <summary>An estimate.</summary>
    public MultiFluidPair Estimate(Substance first, Substance second) =>
        new(first.Identity, second.Identity, new(1, 1), new(1, 1), null, 0, PairTier.Estimated, Rule, null, null, null, null);
}
