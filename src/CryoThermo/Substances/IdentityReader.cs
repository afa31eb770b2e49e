using System.Collections.Immutable;

namespace CryoThermo.Substances;

/// <summary>Turns the identity fields of a file into an identity and checks them.</summary>
internal static class IdentityReader
{
    public static SubstanceIdentity Read(
        FieldCheck at, string? cas, string? name, string? formula, string? designation, IReadOnlyList<string?>? spellings)
    {
        string key = at.Required(cas, "cas");
        if (CasNumber.BrokenRule(key) is string rule)
        {
            throw at.Broken("cas", rule);
        }

        string chemicalName = at.Text(name, "name");
        foreach (char c in chemicalName)
        {
            if (char.IsUpper(c))
            {
                throw at.Broken("name", $"'{chemicalName}' must be in lower case");
            }
        }

        if (formula is not null && !MolecularFormula.TryParse(formula, out _))
        {
            throw at.Broken("formula", $"'{formula}' must be a plain molecular formula of known elements such as C2H2F4");
        }

        if (designation is not null && !designation.StartsWith("R-", StringComparison.Ordinal))
        {
            throw at.Broken("designation", $"'{designation}' must be written as in ISO 817, for example R-290");
        }

        ImmutableArray<string>.Builder further = ImmutableArray.CreateBuilder<string>(spellings?.Count ?? 0);
        for (int i = 0; i < (spellings?.Count ?? 0); i++)
        {
            further.Add(at.Text(spellings![i], $"spellings[{i}]"));
        }

        return new SubstanceIdentity(key, chemicalName, formula, designation, further.ToImmutable());
    }
}
