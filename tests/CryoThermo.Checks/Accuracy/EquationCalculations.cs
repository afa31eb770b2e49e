using CryoThermo.Checks.Values;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>Computes what the check values of pure-fluid equations ask for, through the front door of the library.</summary>
public static class EquationCalculations
{
    /// <summary>The fluid under the equation of the given standard, with the reference state of its publication.</summary>
    public static WorkingFluid Fluid(string name, EquationStandard standard) => WorkingFluid.Pure(name)
        .WithModel(standard == EquationStandard.Reference ? FluidModel.ReferenceEquation : FluidModel.TechnicalEquation)
        .WithReferenceState(ReferenceState.AsPublished);

    /// <summary>The computed value in the unit of the check.</summary>
    public static double Compute(EquationCheck check)
    {
        WorkingFluid fluid = Fluid(check.Fluid, check.Standard);
        HelmholtzEquation equation = fluid.Pedigree.Equation!;
        Temperature temperature = Temperature.FromKelvins(check.Temperature ?? equation.TripleTemperature ?? 300);
        Pressure pressure = Pressure.FromPascals(check.Pressure ?? 101325);
        return check.Quantity switch
        {
            EquationQuantity.TriplePressure => fluid.Saturation(temperature).Pressure.Pascals,
            EquationQuantity.BoilingTemperature => fluid.Saturation(pressure).Temperature.Kelvins,
            EquationQuantity.BoilingLiquidMassDensity => fluid.Saturation(pressure).Liquid.Density.KilogramsPerCubicMeter,
            EquationQuantity.HeatOfVaporization => fluid.Saturation(pressure).EnthalpyOfVaporization.JoulesPerMole / equation.MolarMass / 1000,
            EquationQuantity.AcentricFactorPlusOne => -Math.Log10(
                fluid.Saturation(Temperature.FromKelvins(0.7 * StatedCritical(fluid).Temperature)).Pressure.Pascals / StatedCritical(fluid).Pressure),
            EquationQuantity.SecondVirial => fluid.VirialCoefficientsAt(temperature).SecondCubicCentimetersPerMole,
            EquationQuantity.SpeedOfSound => fluid.At(temperature, pressure).SpeedOfSound!.Value.MetersPerSecond,
            EquationQuantity.MassDensity => fluid.At(temperature, pressure).Density.KilogramsPerCubicMeter,
            EquationQuantity.PublishedIdealGasEnthalpy => equation.IdealGas.PublishedEnthalpy,
            EquationQuantity.PublishedIdealGasEntropy => equation.IdealGas.PublishedEntropy,
            EquationQuantity.MeltingPressure => fluid.Boundaries.MeltingPressure(temperature).Megapascals,
            EquationQuantity.SublimationPressure => fluid.Boundaries.SublimationPressure(temperature).Pascals,
            EquationQuantity.SaturationPressure => fluid.Saturation(temperature).Pressure.Megapascals,
            EquationQuantity.SaturatedLiquidMassDensity => fluid.Saturation(temperature).Liquid.Density.KilogramsPerCubicMeter,
            EquationQuantity.SaturatedVaporMassDensity => fluid.Saturation(temperature).Vapor.Density.KilogramsPerCubicMeter,
            EquationQuantity.SaturatedLiquidMolarDensity => fluid.Saturation(temperature).Liquid.MolarDensity.MolesPerCubicMeter / 1000,
            EquationQuantity.PublishedSaturatedLiquidEnthalpy => fluid.Saturation(temperature).Liquid.MolarEnthalpy.JoulesPerMole / equation.MolarMass / 1000,
            EquationQuantity.BubblePressure => fluid.BubblePoint(temperature).Pressure.Pascals,
            EquationQuantity.DewPressure => fluid.DewPoint(temperature).Pressure.Pascals,
            _ => AtDensity(fluid, check, check.MolarDensity!.Value),
        };
    }

    /// <summary>The largest deviation allowed, in the unit of the check; a rounded density adds what its rounding moves the value by.</summary>
    public static double Allowed(EquationCheck check)
    {
        double allowed = check.RelativeTolerance is { } relative ? relative * Math.Abs(check.Value) : check.AbsoluteTolerance!.Value;
        if (check.MolarDensityHalfUnit is { } half)
        {
            WorkingFluid fluid = Fluid(check.Fluid, check.Standard);
            double density = check.MolarDensity!.Value;
            allowed += 0.5 * Math.Abs(AtDensity(fluid, check, density + half) - AtDensity(fluid, check, density - half));
        }

        return allowed;
    }

    private static Substances.FluidPoint StatedCritical(WorkingFluid fluid)
    {
        Substance substance = fluid.Composition.Components[0];
        return new(substance.CriticalTemperature, substance.CriticalPressure, substance.CriticalMolarDensity);
    }

    private static double AtDensity(WorkingFluid fluid, EquationCheck check, double density)
    {
        State state = fluid.AtDensity(Temperature.FromKelvins(check.Temperature!.Value), Molarity.FromMolesPerCubicMeter(density));
        return check.Quantity switch
        {
            EquationQuantity.PressureAtDensity => check.Unit == "kPa" ? state.Pressure.Kilopascals : state.Pressure.Megapascals,
            EquationQuantity.IsochoricHeatCapacity => state.IsochoricHeatCapacity!.Value.JoulesPerMoleKelvin,
            EquationQuantity.IsobaricHeatCapacity => state.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin,
            EquationQuantity.SpeedOfSoundAtDensity => state.SpeedOfSound!.Value.MetersPerSecond,
            EquationQuantity.PublishedEnthalpy => state.MolarEnthalpy.JoulesPerMole,
            EquationQuantity.PublishedEntropy => state.MolarEntropy.JoulesPerMoleKelvin,
            _ => throw new InvalidOperationException($"{check.Quantity} is not a quantity at a density."),
        };
    }
}
