namespace CryoThermo.Equilibrium;

/// <summary>How volume and temperature follow pressure and enthalpy with the phases in equilibrium. SI, molar.</summary>
/// <param name="VolumeByPressure">dv/dp at constant enthalpy, m3/(mol Pa).</param>
/// <param name="VolumeByEnthalpy">dv/dh at constant pressure, m3/J.</param>
/// <param name="TemperatureByPressure">dT/dp at constant enthalpy, K/Pa.</param>
/// <param name="TemperatureByEnthalpy">dT/dh at constant pressure, K mol/J.</param>
internal readonly record struct EnthalpySlopes(double VolumeByPressure, double VolumeByEnthalpy, double TemperatureByPressure, double TemperatureByEnthalpy)
{
    private const double PressureStep = 1e-5;
    private const double EnthalpyStep = 0.05;

    /// <summary>
    /// From the derivatives in temperature and pressure; where these do not vary independently by the saturation line of a pure fluid, else by
    /// differences.
    /// </summary>
    public static EnthalpySlopes Of(FluidKernel fluid, EquilibriumResult state, ReadOnlySpan<double> z)
    {
        if (EquilibriumDerivatives.TryCompute(fluid, state, out EquilibriumDerivatives d))
        {
            // dh = cp dT + (v - T v_T) dp.
            double byEnthalpy = 1 / d.HeatCapacity;
            double byPressure = ((state.Temperature * d.VolumeByTemperature) - state.Totals.Volume) * byEnthalpy;
            return new(d.VolumeByPressure + (d.VolumeByTemperature * byPressure), d.VolumeByTemperature * byEnthalpy, byPressure, byEnthalpy);
        }

        return IncipientPoint.SingleComponent(z) >= 0 && state.Phases.Length == 2 ? Boiling(state) : ByDifferences(fluid, state, z);
    }

    private static EnthalpySlopes Boiling(EquilibriumResult state)
    {
        PhaseFigures vapor = state.Phases[0].Figures;
        PhaseFigures liquid = state.Phases[1].Figures;
        double x = state.Phases[0].Fraction;
        double latent = vapor.Enthalpy - liquid.Enthalpy;
        double swell = (1 / vapor.MolarDensity) - (1 / liquid.MolarDensity);

        // Clapeyron.
        double temperatureByPressure = swell / (vapor.Entropy - liquid.Entropy);
        (double liquidEnthalpy, double liquidVolume) = Along(liquid);
        (double vaporEnthalpy, double vaporVolume) = Along(vapor);
        double fractionByPressure = -(liquidEnthalpy + (x * (vaporEnthalpy - liquidEnthalpy))) / latent;
        return new(((1 - x) * liquidVolume) + (x * vaporVolume) + (swell * fractionByPressure), swell / latent, temperatureByPressure, 0);

        (double Enthalpy, double Volume) Along(PhaseFigures phase)
        {
            double volume = 1 / phase.MolarDensity;
            return (
                (volume * (1 - (state.Temperature * phase.Expansion))) + (phase.IsobaricHeatCapacity * temperatureByPressure),
                volume * ((phase.Expansion * temperatureByPressure) - phase.Compressibility));
        }
    }

    private static EnthalpySlopes ByDifferences(FluidKernel fluid, EquilibriumResult state, ReadOnlySpan<double> z)
    {
        double p = state.Pressure;
        double h = state.Totals.Enthalpy;
        EquilibriumResult up = CaloricFlash.Solve(fluid, CaloricVariable.Enthalpy, p * (1 + PressureStep), h, z, state.Temperature);
        EquilibriumResult down = CaloricFlash.Solve(fluid, CaloricVariable.Enthalpy, p * (1 - PressureStep), h, z, state.Temperature);
        EquilibriumResult more = CaloricFlash.Solve(fluid, CaloricVariable.Enthalpy, p, h + EnthalpyStep, z, state.Temperature);
        EquilibriumResult less = CaloricFlash.Solve(fluid, CaloricVariable.Enthalpy, p, h - EnthalpyStep, z, state.Temperature);
        return new(
            (up.Totals.Volume - down.Totals.Volume) / (up.Pressure - down.Pressure),
            (more.Totals.Volume - less.Totals.Volume) / (2 * EnthalpyStep),
            (up.Temperature - down.Temperature) / (up.Pressure - down.Pressure),
            (more.Temperature - less.Temperature) / (2 * EnthalpyStep));
    }
}
