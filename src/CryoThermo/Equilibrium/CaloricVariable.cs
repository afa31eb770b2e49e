namespace CryoThermo.Equilibrium;

/// <summary>Which total a caloric flash is given beside the pressure.</summary>
internal enum CaloricVariable
{
    /// <summary>Molar enthalpy, J/mol.</summary>
    Enthalpy,

    /// <summary>Molar entropy, J/(mol K).</summary>
    Entropy,
}
