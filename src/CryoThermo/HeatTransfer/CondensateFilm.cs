namespace CryoThermo.HeatTransfer;

/// <summary>
/// A film of condensate that runs down by its weight, laminar to turbulent: mean coefficient as a function of the film's Reynolds number 4 gamma/viscosity at
/// its end. SI, no checks.
/// </summary>
/// <remarks>
/// Laminar: W. Nusselt, VDI-Z. 60 (1916) 541. Wavy from Re 30: S. S. Kutateladze (1963). Turbulent: D. A. Labuntsov (1957); it meets the wavy form at Re 1600
/// whatever the Prandtl number, and is taken from there (textbooks change at 1800). Forms from memory. The film on a tube lying stays laminar here.
/// </remarks>
internal readonly record struct CondensateFilm(double Conductivity, double Viscosity, double Density, double VaporDensity, double Prandtl)
{
    public const double WavyFrom = 30;
    public const double TurbulentFrom = 1600;

    /// <summary>(4/3)^(4/3): Nusselt's 0.943 as a function of Re.</summary>
    private static readonly double Vertical = Math.Pow(4.0 / 3, 4.0 / 3);

    /// <summary>0.728^(4/3) (4 pi)^(1/3): Nusselt's 0.728 of a horizontal tube as a function of Re.</summary>
    private static readonly double Horizontal = Math.Pow(0.728, 4.0 / 3) * Math.Cbrt(4 * Math.PI);

    /// <summary>Mean coefficient, W/(m2 K); infinite without a film.</summary>
    /// <param name="reynolds">4 gamma/viscosity where the film leaves, gamma kg/(m s).</param>
    /// <param name="horizontal">Whether the film runs round a tube lying.</param>
    public double Coefficient(double reynolds, bool horizontal)
    {
        double scale = Conductivity * Math.Cbrt(Medium.Gravity * Density * (Density - VaporDensity) / (Viscosity * Viscosity));
        return scale * (horizontal ? Horizontal / Math.Cbrt(reynolds)
            : reynolds < WavyFrom ? Vertical / Math.Cbrt(reynolds)
            : reynolds < TurbulentFrom ? reynolds / ((1.08 * Math.Pow(reynolds, 1.22)) - 5.2)
            : reynolds / (8750 + (58 / Math.Sqrt(Prandtl) * (Math.Pow(reynolds, 0.75) - 253))));
    }
}
