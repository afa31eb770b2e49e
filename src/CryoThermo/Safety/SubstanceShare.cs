namespace CryoThermo.Safety;

/// <summary>One substance of a mixture and its mole fraction. Immutable and thread-safe.</summary>
/// <param name="Substance">The chemical name ("n-butane"), formula ("CH4") or ISO 817 designation ("R-290").</param>
/// <param name="MoleFraction">The mole fraction, 0 to 1.</param>
public sealed record SubstanceShare(string Substance, double MoleFraction);
