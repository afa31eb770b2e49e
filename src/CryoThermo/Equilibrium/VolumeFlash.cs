using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// States at given temperature and volume, and at given internal energy or entropy and volume: what is in a closed vessel. At
/// constant temperature the equilibrium volume falls with pressure, at constant volume the internal energy rises with
/// temperature; both are solved inside a bracket over the isothermal flash. Where the volume jumps at one pressure (a
/// pure fluid or an azeotrope boiling), the answer is the mix of both sides.
/// </summary>
internal static class VolumeFlash
{
    private const double Tolerance = 1e-13;

    // How far rounding of a density may put its pressure outside the accepted range, relative.
    private const double PressureSlack = 1e-9;

    private const int DescentSteps = 64;

    /// <summary>State at temperature (K) and molar density (mol/m3).</summary>
    /// <exception cref="ArgumentOutOfRangeException">No pressure within the accepted range gives this volume.</exception>
    public static EquilibriumResult AtDensity(FluidKernel fluid, double temperature, double molarDensity, ReadOnlySpan<double> z)
    {
        double volume = 1 / molarDensity;
        int n = z.Length;
        Span<double> scratch = stackalloc double[fluid.Equation.ScratchLength];
        int only = IncipientPoint.SingleComponent(z);
        if (fluid.Equation.IsPureEquation)
        {
            return OfPureEquation(fluid, temperature, molarDensity, z, scratch);
        }

        if (only >= 0 && PureSaturation.TryPressure(fluid.Equation, only, temperature, scratch, out double boiling, out _, out _)
            && boiling > fluid.LowestPressure)
        {
            PhaseFigures liquid = fluid.Phase(temperature, boiling, z, DensityRoot.Liquid, scratch);
            PhaseFigures vapor = fluid.Phase(temperature, boiling, z, DensityRoot.Vapor, scratch);
            double share = (volume - (1 / liquid.MolarDensity)) / ((1 / vapor.MolarDensity) - (1 / liquid.MolarDensity));
            if (share is >= 0 and <= 1)
            {
                return CaloricFlash.Boiling(temperature, boiling, z, liquid, vapor, share);
            }
        }

        PhaseSplit split = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        double low = Math.Log(fluid.LowestPressure);
        double high = Math.Log(fluid.HighestPressure);
        double target = Math.Log(volume);
        double atLow = Math.Log(fluid.Flash(temperature, Math.Exp(low), z, scratch, ref split).Volume) - target;
        double atHigh = Math.Log(fluid.Flash(temperature, Math.Exp(high), z, scratch, ref split).Volume) - target;
        if (!(atLow >= 0 && atHigh <= 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(molarDensity),
                molarDensity,
                $"molarDensity is {molarDensity:G9} mol/m3; at {temperature:G6} K allowed is {1 / (volume * Math.Exp(atLow)):G6} to {1 / (volume * Math.Exp(atHigh)):G6} mol/m3 ({fluid.LowestPressure:G3} to {fluid.HighestPressure:G3} Pa).");
        }

        // ln v over ln p: straight in a gas, nearly level in a liquid, bent at phase boundaries.
        double ideal = Math.Log(fluid.Equation.GasConstant * temperature / volume);
        double x = ideal > low && ideal < high ? ideal : 0.5 * (low + high);
        bool halve = false;
        for (int iteration = 0; iteration < 300; iteration++)
        {
            double pressure = Math.Exp(x);
            CaloricFigures totals = fluid.Flash(temperature, pressure, z, scratch, ref split);
            double miss = Math.Log(totals.Volume) - target;
            if (Math.Abs(miss) <= Tolerance)
            {
                return fluid.Collect(temperature, pressure, z, split, totals, scratch);
            }

            double widthBefore = high - low;
            if (miss > 0)
            {
                low = x;
                atLow = miss;
            }
            else
            {
                high = x;
                atHigh = miss;
            }

            if (high - low <= 4e-15 * Math.Max(1, Math.Abs(high)))
            {
                EquilibriumResult thin = fluid.At(temperature, Math.Exp(low), z);
                EquilibriumResult dense = fluid.At(temperature, Math.Exp(high), z);
                return CaloricFlash.Mix(dense, thin, Math.Clamp((volume - dense.Totals.Volume) / (thin.Totals.Volume - dense.Totals.Volume), 0, 1));
            }

            double chord = low + ((high - low) * atLow / (atLow - atHigh));
            x = halve || !(chord > low && chord < high) ? 0.5 * (low + high) : chord;
            halve = !halve && high - low > 0.5 * widthBefore;
        }

        throw new ConvergenceException(
            "Flash at given temperature and density",
            $"T = {temperature:G9} K, density {molarDensity:G12} mol/m3",
            Math.Min(Math.Abs(atLow), Math.Abs(atHigh)),
            "Report this case; a neighbouring temperature will work.");
    }

    // A pure equation gives the pressure directly; nothing has to be searched for but its saturation.
    private static EquilibriumResult OfPureEquation(FluidKernel fluid, double temperature, double molarDensity, ReadOnlySpan<double> z, Span<double> scratch)
    {
        if (!TryPressureOf(fluid, temperature, molarDensity, z, scratch, out double pressure, out bool boils))
        {
            throw new ArgumentOutOfRangeException(
                nameof(molarDensity),
                molarDensity,
                $"molarDensity is {molarDensity:G9} mol/m3; at {temperature:G6} K it must be such that the pressure lies within {fluid.LowestPressure:G3} to {fluid.HighestPressure:G3} Pa.");
        }

        if (boils)
        {
            PhaseFigures liquid = fluid.Phase(temperature, pressure, z, DensityRoot.Liquid, scratch);
            PhaseFigures vapor = fluid.Phase(temperature, pressure, z, DensityRoot.Vapor, scratch);
            double share = ((1 / molarDensity) - (1 / liquid.MolarDensity)) / ((1 / vapor.MolarDensity) - (1 / liquid.MolarDensity));
            return CaloricFlash.Boiling(temperature, pressure, z, liquid, vapor, Math.Clamp(share, 0, 1));
        }

        bool isVapor = fluid.Equation.ReducedVolume(molarDensity, z) > 1;
        ResidualProperties residual = fluid.Equation.ResidualAtDensity(temperature, molarDensity, pressure);
        PhaseFigures figures = fluid.Phase(temperature, pressure, z, residual, isVapor ? DensityRoot.Vapor : DensityRoot.Liquid);
        return new(
            temperature,
            pressure,
            [new(1, isVapor, z.ToArray(), figures)],
            new(figures.Enthalpy, figures.Entropy, 1 / figures.MolarDensity, figures.IsobaricHeatCapacity),
            false,
            0,
            0);
    }

    // Pressure of a pure equation at a density; false where it is not an accepted one or the density none of one stable phase or of boiling.
    private static bool TryPressureOf(
        FluidKernel fluid, double temperature, double molarDensity, ReadOnlySpan<double> z, Span<double> scratch, out double pressure, out bool boils)
    {
        boils = PureSaturation.TryPressure(fluid.Equation, 0, temperature, scratch, out pressure, out double liquid, out double vapor)
            && molarDensity >= vapor
            && molarDensity <= liquid;
        if (boils)
        {
            return pressure >= fluid.LowestPressure;
        }

        fluid.Equation.SetTemperature(temperature, scratch);
        if (!(molarDensity < fluid.Equation.DensityLimit(z, scratch)))
        {
            return false;
        }

        pressure = fluid.Equation.Pressure(temperature, molarDensity, z, scratch, out double byVolume);
        double accepted = Math.Clamp(pressure, fluid.LowestPressure, fluid.HighestPressure);
        bool isAccepted = byVolume < 0 && Math.Abs(pressure - accepted) <= PressureSlack * accepted;
        pressure = accepted;
        return isAccepted;
    }

    /// <summary>State at internal energy (J/mol) and molar density (mol/m3).</summary>
    /// <exception cref="ArgumentOutOfRangeException">No temperature within the accepted range has this internal energy.</exception>
    public static EquilibriumResult AtInternalEnergy(FluidKernel fluid, double internalEnergy, double molarDensity, ReadOnlySpan<double> z) =>
        Solve(fluid, Isochoric.InternalEnergy, internalEnergy, molarDensity, z);

    /// <summary>State at entropy (J/(mol K)) and molar density (mol/m3).</summary>
    /// <exception cref="ArgumentOutOfRangeException">No temperature within the accepted range has this entropy.</exception>
    public static EquilibriumResult AtEntropy(FluidKernel fluid, double entropy, double molarDensity, ReadOnlySpan<double> z) =>
        Solve(fluid, Isochoric.Entropy, entropy, molarDensity, z);

    // At constant volume internal energy and entropy rise with temperature.
    private static EquilibriumResult Solve(FluidKernel fluid, Isochoric variable, double target, double molarDensity, ReadOnlySpan<double> z)
    {
        (double low, double high) = TemperatureRange(fluid, molarDensity, z);
        (low, high) = Descend(fluid, low, high, variable, target, molarDensity, z);
        double atLow = variable.Of(AtDensity(fluid, low, molarDensity, z)) - target;
        double atHigh = variable.Of(AtDensity(fluid, high, molarDensity, z)) - target;
        if (!(atLow <= variable.Slack && atHigh >= -variable.Slack))
        {
            throw new ArgumentOutOfRangeException(
                variable.Name,
                target,
                $"{variable.Name} is {target:G9} {variable.Unit}; at {molarDensity:G6} mol/m3 allowed is {atLow + target:G6} to {atHigh + target:G6} {variable.Unit} ({low:G6} to {high:G6} K).");
        }

        EquilibriumResult result = AtDensity(fluid, 0.5 * (low + high), molarDensity, z);
        bool halve = false;
        for (int iteration = 0; iteration < 200; iteration++)
        {
            double t = result.Temperature;
            double miss = variable.Of(result) - target;
            double widthBefore = high - low;
            if (miss > 0)
            {
                high = t;
                atHigh = miss;
            }
            else
            {
                low = t;
                atLow = miss;
            }

            if (Math.Abs(miss) <= variable.Tolerance || high - low <= 4e-14 * high)
            {
                return result;
            }

            double chord = low - ((high - low) * atLow / (atHigh - atLow));
            double next = halve || !(chord > low && chord < high) ? 0.5 * (low + high) : chord;
            halve = !halve && high - low > 0.5 * widthBefore;
            result = AtDensity(fluid, next, molarDensity, z);
        }

        throw new ConvergenceException(
            $"Flash at given {variable.Name} and density",
            $"{variable.Name} {target:G12} {variable.Unit}, density {molarDensity:G12} mol/m3",
            Math.Min(Math.Abs(atLow), Math.Abs(atHigh)),
            "Report this case; a neighbouring density will work.");
    }

    // Below its stated range a pure equation is followed only as long as its internal energy falls with temperature.
    private static (double Low, double High) Descend(
        FluidKernel fluid, double low, double high, Isochoric variable, double target, double molarDensity, ReadOnlySpan<double> z)
    {
        double from = Math.Clamp(fluid.Equation.LowestStatedTemperature, low, high);
        if (from <= low)
        {
            return (low, high);
        }

        double value = variable.Of(AtDensity(fluid, from, molarDensity, z));
        if (value <= target)
        {
            return (from, high);
        }

        // Far above the melting pressure it may turn back within that range too: from the warm end.
        double factor = Math.Pow(low / high, 1.0 / DescentSteps);
        double cold = high;
        double warm = high;
        value = variable.Of(AtDensity(fluid, high, molarDensity, z));
        while (cold > low && value > target)
        {
            double next = cold * factor > low * (1 + 1e-9) ? cold * factor : low;
            double nextValue = variable.Of(AtDensity(fluid, next, molarDensity, z));
            if (nextValue >= value)
            {
                break;
            }

            (cold, warm, value) = (next, cold, nextValue);
        }

        return (cold, warm);
    }

    /// <summary>u = h - p v, J/mol.</summary>
    public static double EnergyOf(EquilibriumResult result) => result.Totals.Enthalpy - (result.Pressure * result.Totals.Volume);

    // A dense liquid reaches the highest pressure well below the highest temperature, a thin gas the lowest pressure above
    // the lowest one: the range is narrowed to where the volume can be had.
    private static (double Low, double High) TemperatureRange(FluidKernel fluid, double molarDensity, ReadOnlySpan<double> z)
    {
        double volume = 1 / molarDensity;
        double[] fractions = z.ToArray();
        double low = fluid.LowestTemperature;
        double high = fluid.HighestTemperature;
        double within = double.NaN;
        for (int k = 0; k <= 60 && double.IsNaN(within); k++)
        {
            double t = low * Math.Pow(high / low, k / 60.0);
            within = CanHold(t) ? t : double.NaN;
        }

        if (double.IsNaN(within))
        {
            throw new ArgumentOutOfRangeException(
                nameof(molarDensity), molarDensity, $"molarDensity is {molarDensity:G9} mol/m3; no temperature from {low:G6} to {high:G6} K has it within {fluid.LowestPressure:G3} to {fluid.HighestPressure:G3} Pa.");
        }

        return (CanHold(low) ? low : Edge(low, within), CanHold(high) ? high : Edge(high, within));

        double Edge(double outside, double inside)
        {
            for (int k = 0; k < 45; k++)
            {
                double middle = 0.5 * (outside + inside);
                if (CanHold(middle))
                {
                    inside = middle;
                }
                else
                {
                    outside = middle;
                }
            }

            // Next to the edge the volume may change by orders of magnitude within a nanokelvin: if it does, stay clear of it.
            return IsSolvable(inside) ? inside : inside + (1e-5 * Math.Sign(inside - outside) * inside);
        }

        bool IsSolvable(double t)
        {
            try
            {
                AtDensity(fluid, t, molarDensity, fractions);
                return true;
            }
            catch (ArgumentOutOfRangeException)
            {
                return false;
            }
        }

        // A little inside the accepted pressures, so that the flash at the edge found does not fail by rounding.
        bool CanHold(double t) => fluid.Equation.IsPureEquation
            ? TryPressureOf(fluid, t, molarDensity, fractions, new double[fluid.Equation.ScratchLength], out _, out _)
            : fluid.At(t, fluid.LowestPressure * (1 + 1e-6), fractions).Totals.Volume >= volume
            && fluid.At(t, fluid.HighestPressure * (1 - 1e-6), fractions).Totals.Volume <= volume;
    }

    /// <summary>What is held beside the volume.</summary>
    private sealed record Isochoric(string Name, string Unit, double Slack, double Tolerance, Func<EquilibriumResult, double> Of)
    {
        public static Isochoric InternalEnergy { get; } = new("molarInternalEnergy", "J/mol", 1e-7, 1e-9, EnergyOf);

        public static Isochoric Entropy { get; } = new("molarEntropy", "J/(mol K)", 1e-10, 1e-12, static result => result.Totals.Entropy);
    }
}
