namespace CryoThermo.Substances;

/// <summary>Turns the identity fields of a file into an identity and checks them.</summary>
internal static class IdentityReader
{
    /// <summary>Reads the identity fields of a block, which may hold others.</summary>
    public static SubstanceIdentity Read(JsonBlock block)
    {
        FieldCheck at = block.Check;
        string? formula = block.Text("formula");
        string? designation = block.Text("designation");
        string key = at.Required(block.Text("cas"), "cas");
        if (CasNumber.BrokenRule(key) is string rule)
        {
            throw at.Broken("cas", rule);
        }

        string chemicalName = block.RequiredText("name");
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

        return new SubstanceIdentity(key, chemicalName, formula, designation, block.RequiredTexts("spellings"));
    }
}
