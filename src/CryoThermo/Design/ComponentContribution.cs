namespace CryoThermo.Design;

/// <summary>What a component does for a blend.</summary>
/// <param name="Substance">Its name.</param>
/// <param name="MoleFraction">Its share.</param>
/// <param name="ChangeOnRemovingPercent">Change of the capacity in percent when 1 % mol of the blend (all of it, if there is less) is taken out of this component and the others fill up in proportion.</param>
/// <param name="ChangeOnAddingPercent">The same when 1 % mol is added.</param>
/// <param name="ChangeWithoutPercent">The same without it altogether; minus 100 where the blend then does not cool; null for a blend of it alone.</param>
public sealed record ComponentContribution(
    string Substance, double MoleFraction, double ChangeOnRemovingPercent, double ChangeOnAddingPercent, double? ChangeWithoutPercent);
