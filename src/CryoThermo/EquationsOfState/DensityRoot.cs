namespace CryoThermo.EquationsOfState;

/// <summary>Which density root of an equation of state is meant where more than one exists at a temperature and pressure.</summary>
internal enum DensityRoot
{
    /// <summary>The root with the lowest Gibbs energy.</summary>
    Stable,

    /// <summary>The densest root; the only root where there is one.</summary>
    Liquid,

    /// <summary>The least dense root; the only root where there is one.</summary>
    Vapor,
}
