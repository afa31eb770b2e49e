namespace CryoThermo.Fitting;

/// <summary>What a measured point tells of a mixture, and which deviation from it is formed.</summary>
public enum MeasurementKind
{
    /// <summary>Pressure at which a liquid of given composition forms its first bubble at a given temperature; compared as relative deviation.</summary>
    BubblePressure,

    /// <summary>Temperature at which a liquid of given composition forms its first bubble at a given pressure; compared in K.</summary>
    BubbleTemperature,

    /// <summary>Pressure at which a vapour of given composition forms its first drop at a given temperature; compared as relative deviation.</summary>
    DewPressure,

    /// <summary>Temperature at which a vapour of given composition forms its first drop at a given pressure; compared in K.</summary>
    DewTemperature,

    /// <summary>
    /// Composition of the vapour above a liquid at given temperature and pressure, two components; compared in mole fraction of the first
    /// component. Also the deviation of the vapour compositions measured with bubble points.
    /// </summary>
    VaporComposition,

    /// <summary>Density of one phase at given temperature, pressure and composition; also that of the liquid measured with a bubble point. Compared as relative deviation.</summary>
    Density,

    /// <summary>Speed of sound of one phase at given temperature, pressure and composition; compared as relative deviation.</summary>
    SpeedOfSound,

    /// <summary>Excess Gibbs energy of a liquid at its bubble pressure; compared in J/mol.</summary>
    ExcessGibbsEnergy,
}
