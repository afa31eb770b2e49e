namespace CryoThermo.EquationsOfState;

/// <summary>
/// An equation of state for a fixed list of components, as the equilibrium layer needs it: fugacity coefficients,
/// their derivatives and residual properties at temperature, pressure and composition. SI, molar; spans hold mole
/// fractions in component order. Implementations are immutable, thread-safe and allocate nothing: whatever depends on
/// temperature alone lives in a scratch span of the caller, filled by <see cref="SetTemperature"/>.
/// </summary>
internal abstract class MixtureKernel
{
    /// <summary>Most components a mixture may have; scratch memory on the stack is sized for it.</summary>
    public const int MaxComponents = 25;

    /// <summary>Number of components.</summary>
    public abstract int ComponentCount { get; }

    /// <summary>Molar gas constant the equation was made with, J/(mol K).</summary>
    public abstract double GasConstant { get; }

    /// <summary>Length of the scratch span that all calls share.</summary>
    public abstract int ScratchLength { get; }

    /// <summary>Lowest temperature the equation is used at, K.</summary>
    public abstract double LowestTemperature { get; }

    /// <summary>
    /// Lowest temperature down to which heat capacities are known to be positive, K. Below it a pure equation is continued as it stands:
    /// enthalpy and entropy may turn back there.
    /// </summary>
    public virtual double LowestStatedTemperature => LowestTemperature;

    /// <summary>Highest temperature the equation is used at, K.</summary>
    public abstract double HighestTemperature { get; }

    /// <summary>Lowest pressure the equation is used at, Pa.</summary>
    public abstract double LowestPressure { get; }

    /// <summary>Highest pressure the equation is used at, Pa.</summary>
    public abstract double HighestPressure { get; }

    /// <summary>Lowest temperature at which the equation reaches a pressure, K: above <see cref="LowestTemperature"/> at the highest pressures of some.</summary>
    /// <param name="pressure">Pa, up to <see cref="HighestPressure"/>.</param>
    public virtual double LowestTemperatureAt(double pressure) => LowestTemperature;

    /// <summary>Computes what depends on temperature alone. Must precede every other call with the same scratch.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="scratch">Span of <see cref="ScratchLength"/> doubles.</param>
    public abstract void SetTemperature(double temperature, Span<double> scratch);

    /// <summary>Fugacity coefficients.</summary>
    /// <param name="temperature">K, as given to <see cref="SetTemperature"/>.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="x">Mole fractions, sum 1.</param>
    /// <param name="root">The density root wanted.</param>
    /// <param name="scratch">Scratch filled by <see cref="SetTemperature"/>.</param>
    /// <param name="lnPhi">Receives ln of the fugacity coefficients.</param>
    /// <param name="found">Whether the root taken is liquid-like or vapour-like.</param>
    /// <returns>Molar density, mol/m3.</returns>
    public abstract double LnFugacityCoefficients(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, Span<double> lnPhi, out DensityRoot found);

    /// <summary>Fugacity coefficients with all first derivatives.</summary>
    /// <param name="temperature">K, as given to <see cref="SetTemperature"/>.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="x">Mole fractions, sum 1.</param>
    /// <param name="root">The density root wanted.</param>
    /// <param name="scratch">Scratch filled by <see cref="SetTemperature"/>.</param>
    /// <param name="lnPhi">Receives ln of the fugacity coefficients.</param>
    /// <param name="byAmount">Receives n d(ln phi_i)/d(n_j) at constant T, p, row-major, N x N, symmetric.</param>
    /// <param name="byTemperature">Receives d(ln phi_i)/dT at constant p, x, 1/K; may be empty.</param>
    /// <param name="byPressure">Receives d(ln phi_i)/dp at constant T, x, 1/Pa; may be empty.</param>
    /// <param name="found">Whether the root taken is liquid-like or vapour-like.</param>
    /// <returns>Molar density, mol/m3.</returns>
    public abstract double LnFugacityDerivatives(
        double temperature,
        double pressure,
        ReadOnlySpan<double> x,
        DensityRoot root,
        Span<double> scratch,
        Span<double> lnPhi,
        Span<double> byAmount,
        Span<double> byTemperature,
        Span<double> byPressure,
        out DensityRoot found);

    /// <summary>Residual properties at temperature, pressure and composition.</summary>
    public abstract ResidualProperties Residual(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, out DensityRoot found);

    /// <summary>Pressure at temperature and molar density, Pa.</summary>
    /// <param name="temperature">K, as given to <see cref="SetTemperature"/>.</param>
    /// <param name="molarDensity">mol/m3.</param>
    /// <param name="x">Mole fractions.</param>
    /// <param name="scratch">Scratch filled by <see cref="SetTemperature"/>.</param>
    /// <param name="byVolume">dp/dv at constant temperature, Pa mol/m3.</param>
    public abstract double Pressure(double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, out double byVolume);

    /// <summary>
    /// ln(fugacity_i/(x_i 1 Pa)) at temperature and molar density, defined at every density, also where pressure is
    /// negative. Returns the pressure, Pa.
    /// </summary>
    /// <param name="temperature">K, as given to <see cref="SetTemperature"/>.</param>
    /// <param name="molarDensity">mol/m3.</param>
    /// <param name="x">Mole fractions, sum 1.</param>
    /// <param name="scratch">Scratch filled by <see cref="SetTemperature"/>.</param>
    /// <param name="lnFugacityOverFraction">Receives one value a component.</param>
    public abstract double LnFugacityAtDensity(
        double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, Span<double> lnFugacityOverFraction);

    /// <summary>
    /// ln(fugacity_i/(x_i 1 Pa)) at temperature and molar density as <see cref="LnFugacityAtDensity"/> gives it, with all first derivatives
    /// at constant volume. No density root is sought. Returns the pressure, Pa.
    /// </summary>
    /// <param name="temperature">K, as given to <see cref="SetTemperature"/>.</param>
    /// <param name="molarDensity">mol/m3.</param>
    /// <param name="x">Mole fractions, sum 1.</param>
    /// <param name="scratch">Scratch filled by <see cref="SetTemperature"/>.</param>
    /// <param name="lnFugacityOverFraction">Receives one value a component.</param>
    /// <param name="byAmount">
    /// Receives H_ij = n d(ln(f_i/x_i) + ln x_i)/d(n_j) - delta_ij/x_i at constant T, V, which is the second derivative of the residual
    /// Helmholtz energy over R T by the amounts; row-major, N x N, symmetric. With h_i = sum_k x_k H_ik,
    /// d(ln(f_i/x_i))/d(ln density) at constant T, x is 1 + h_i, and V/(R T) dp/d(n_i) at constant T, V as well.
    /// </param>
    /// <param name="byTemperature">Receives d(ln(f_i/x_i))/dT at constant density and composition, 1/K.</param>
    /// <param name="pressureByTemperature">dp/dT at constant density and composition, Pa/K.</param>
    public abstract double LnFugacityDerivativesAtDensity(
        double temperature,
        double molarDensity,
        ReadOnlySpan<double> x,
        Span<double> scratch,
        Span<double> lnFugacityOverFraction,
        Span<double> byAmount,
        Span<double> byTemperature,
        out double pressureByTemperature);

    /// <summary>Molar volume over the mixture's pseudo-critical volume: below 1 a fluid is called liquid-like.</summary>
    public abstract double ReducedVolume(double molarDensity, ReadOnlySpan<double> x);

    /// <summary>Highest molar density the equation allows for a composition at the temperature of the scratch, mol/m3.</summary>
    public abstract double DensityLimit(ReadOnlySpan<double> x, ReadOnlySpan<double> scratch);

    /// <summary>Starting estimate of ln K from critical constants; any pressure and temperature.</summary>
    public abstract void EstimateLnK(double temperature, double pressure, Span<double> lnK);

    /// <summary>Critical temperature of a component as the equation has it, K.</summary>
    public abstract double CriticalTemperature(int component);

    /// <summary>Critical pressure of a component as the equation has it, Pa.</summary>
    public abstract double CriticalPressure(int component);

    /// <summary>Critical molar density of a component as the equation has it, mol/m3.</summary>
    public abstract double CriticalDensity(int component);

    /// <summary>Second virial coefficient of a composition, m3/mol, its temperature derivative, m3/(mol K), and the third, m6/mol2.</summary>
    /// <param name="temperature">K, as given to <see cref="SetTemperature"/>.</param>
    /// <param name="x">Mole fractions, sum 1.</param>
    /// <param name="scratch">Scratch filled by <see cref="SetTemperature"/>.</param>
    /// <param name="second">B.</param>
    /// <param name="secondByTemperature">dB/dT.</param>
    /// <param name="third">C.</param>
    public abstract void Virials(
        double temperature, ReadOnlySpan<double> x, Span<double> scratch, out double second, out double secondByTemperature, out double third);

    /// <summary>True for a one-component kernel that finds saturation and states at given density in ways of its own.</summary>
    public virtual bool IsPureEquation => false;

    /// <summary>A kernel of one component alone that finds saturation in ways of its own; null when this kernel has none.</summary>
    /// <param name="component">Which one.</param>
    public virtual MixtureKernel? PureKernel(int component) => null;

    /// <summary>Residual properties at temperature and molar density of a kernel with <see cref="IsPureEquation"/>.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3.</param>
    /// <param name="pressure">The pressure there, Pa.</param>
    public virtual ResidualProperties ResidualAtDensity(double temperature, double molarDensity, double pressure) =>
        throw new NotSupportedException("Only pure equations are evaluated at density.");

    /// <summary>
    /// Saturation at a temperature of a kernel with <see cref="IsPureEquation"/>; false at or above the critical temperature.
    /// </summary>
    /// <param name="temperature">K.</param>
    /// <param name="scratch">Set to this temperature on return.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="liquidDensity">mol/m3.</param>
    /// <param name="vaporDensity">mol/m3.</param>
    public virtual bool TrySaturation(double temperature, Span<double> scratch, out double pressure, out double liquidDensity, out double vaporDensity)
    {
        pressure = 0;
        liquidDensity = 0;
        vaporDensity = 0;
        return false;
    }

    /// <summary>
    /// Densities at which the metastable branches of a kernel with <see cref="IsPureEquation"/> end; false at or above the critical temperature.
    /// </summary>
    /// <param name="temperature">K.</param>
    /// <param name="scratch">Set to this temperature on return.</param>
    /// <param name="vaporDensity">mol/m3.</param>
    /// <param name="liquidDensity">mol/m3.</param>
    public virtual bool TryLimits(double temperature, Span<double> scratch, out double vaporDensity, out double liquidDensity)
    {
        vaporDensity = 0;
        liquidDensity = 0;
        return false;
    }

    /// <summary>
    /// Boiling at a pressure of a kernel with <see cref="IsPureEquation"/>; false at or above the critical pressure, and below the
    /// vapour pressure at the lowest temperature.
    /// </summary>
    /// <param name="pressure">Pa.</param>
    /// <param name="scratch">Set to the temperature found on return.</param>
    /// <param name="temperature">K.</param>
    /// <param name="liquidDensity">mol/m3.</param>
    /// <param name="vaporDensity">mol/m3.</param>
    public virtual bool TryBoiling(double pressure, Span<double> scratch, out double temperature, out double liquidDensity, out double vaporDensity)
    {
        temperature = 0;
        liquidDensity = 0;
        vaporDensity = 0;
        return false;
    }
}
