using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class TransportPropertiesTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.3), ("ethane", 0.2), ("propane", 0.2));

    [Fact]
    public void APureGasHasItsOwnCorrelation()
    {
        TransportProperties t = At(WorkingFluid.Pure("nitrogen"), 300, 1).Transport;

        // Handbooks, from memory: 17.8 to 17.9 microPa s, 25.8 to 26.0 mW/(m K), Prandtl number 0.71 to 0.72.
        Assert.InRange(t.Viscosity.MicropascalSeconds, 17.8, 17.9);
        Assert.InRange(t.ThermalConductivity.WattsPerMeterKelvin, 0.0258, 0.0260);
        Assert.InRange(t.PrandtlNumber, 0.71, 0.72);
        Assert.Contains("Lemmon", t.ViscosityMethod.Description, StringComparison.Ordinal);
        Assert.Equal(0.5, t.ViscosityMethod.UncertaintyPercent);
        Assert.Equal(2, t.ConductivityMethod.UncertaintyPercent);
        Assert.False(t.ViscosityMethod.IsEstimated);
        Assert.Empty(t.Notes);
    }

    [Fact]
    public void ASplitStateAsksForEachPhase()
    {
        State split = At(Blend, 160, 10);
        Assert.Equal(2, split.Phases.Count);
        Assert.Contains("Phases[i].Transport", Assert.Throws<InvalidOperationException>(() => split.Transport).Message, StringComparison.Ordinal);
        TransportProperties vapor = split.Phases[0].Transport;
        TransportProperties liquid = split.Phases[1].Transport;
        Assert.True(liquid.Viscosity > 5 * vapor.Viscosity);
        Assert.True(liquid.ThermalConductivity > 3 * vapor.ThermalConductivity);
        Assert.Equal((3, 10), (vapor.ViscosityMethod.UncertaintyPercent, liquid.ViscosityMethod.UncertaintyPercent));
        Assert.Contains("corresponding states", liquid.ConductivityMethod.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void AnEstimatedComponentIsNamed()
    {
        TransportProperties t = At(WorkingFluid.Mixture(("methane", 0.5), ("xenon", 0.3), ("R-32", 0.2)), 350, 5).Transport;
        Assert.True(t.ViscosityMethod.IsEstimated);
        Assert.True(t.ConductivityMethod.IsEstimated);
        Assert.Contains("xenon, difluoromethane", t.ViscosityMethod.Description, StringComparison.Ordinal);

        // Gas of typical kind: methane 3 %, the others 10 % each.
        Assert.Equal(6.5, t.ViscosityMethod.UncertaintyPercent, 9);
        TransportProperties pure = At(WorkingFluid.Pure("xenon"), 300, 1).Transport;
        Assert.True(pure.ViscosityMethod.IsEstimated);

        // Handbooks, from memory: 23.0 to 23.3 microPa s; the estimate states 10 %.
        Assert.Equal(23.1, pure.Viscosity.MicropascalSeconds, 2.3);
    }

    [Fact]
    public void BeyondItsRangeACorrelationIsContinuedAndSaysSo()
    {
        WorkingFluid fluid = WorkingFluid.Pure("R-23");
        TransportProperties cold = At(fluid, 130, 5).Transport;
        Assert.Equal(2, cold.Notes.Count);
        Assert.Contains("begins at 153 K", cold.Notes[0].Message, StringComparison.Ordinal);
        Assert.Contains("beyond its range continued by corresponding states", cold.ViscosityMethod.Description, StringComparison.Ordinal);
        Assert.True(cold.ViscosityMethod.UncertaintyPercent > 10);
        TransportProperties below = At(fluid, 153 - 1e-6, 5).Transport;
        TransportProperties above = At(fluid, 153 + 1e-6, 5).Transport;
        Assert.Equal(1, below.Viscosity / above.Viscosity, 1e-6);
        Assert.Equal(1, below.ThermalConductivity / above.ThermalConductivity, 1e-6);
        Assert.True(cold.Viscosity > below.Viscosity);

        State strict = At(fluid.WithRangePolicy(RangePolicy.Strict), 130, 5);
        Assert.Throws<ModelRangeException>(() => strict.Transport);
        Assert.Empty(At(fluid.WithRangePolicy(RangePolicy.Strict), 160, 5).Transport.Notes);
    }

    [Fact]
    public void ConductivityRisesAtTheCriticalPoint()
    {
        WorkingFluid fluid = WorkingFluid.Pure("nitrogen");
        double near = fluid.AtDensity(Temperature.FromKelvins(126.195), Molarity.FromMolesPerCubicMeter(11180)).Transport.ThermalConductivity.WattsPerMeterKelvin;
        double far = fluid.AtDensity(Temperature.FromKelvins(260), Molarity.FromMolesPerCubicMeter(11180)).Transport.ThermalConductivity.WattsPerMeterKelvin;
        Assert.True(near > 10 * far);
    }

    [Fact]
    public void SurfaceTensionNeedsAVaporAndALiquidOfTheState()
    {
        State split = At(Blend, 160, 10);
        SurfaceTension tension = split.SurfaceTension;
        Assert.InRange(tension.Value.MillinewtonsPerMeter, 1, 20);
        Assert.Equal(10, tension.Method.UncertaintyPercent);
        Assert.Equal(tension, split.SurfaceTensionOf(split.Phases[1]));
        Assert.Throws<ArgumentException>(() => split.SurfaceTensionOf(split.Phases[0]));
        Assert.Throws<ArgumentException>(() => split.SurfaceTensionOf(At(Blend, 161, 10).Phases[1]));
        Assert.Throws<InvalidOperationException>(() => At(Blend, 300, 1).SurfaceTension);
        State compressed = At(Blend, 110, 90);
        Assert.All(compressed.Phases, p => Assert.Equal(PhaseKind.Liquid, p.Kind));
        Assert.Throws<InvalidOperationException>(() => compressed.SurfaceTensionOf(compressed.Phases[0]));
    }

    [Theory]
    [InlineData("nitrogen", "methane", 90)]
    [InlineData("propane", "ethane", 231)]
    [InlineData("R-14", "R-23", 145)]
    public void AMixtureThatBecomesPureHasThePureSurfaceTension(string name, string trace, double temperature)
    {
        Temperature t = Temperature.FromKelvins(temperature);
        double pure = WorkingFluid.Pure(name).Saturation(t).SurfaceTension.Value.NewtonsPerMeter;
        double mixture = WorkingFluid.Mixture((name, 1 - 1e-7), (trace, 1e-7)).BubblePoint(t).SurfaceTension.Value.NewtonsPerMeter;

        // The parachor belongs to the normal boiling point; elsewhere the fourth power of density is not quite the curve.
        Assert.Equal(1, mixture / pure, 0.03);
    }

    [Fact]
    public void SurfaceTensionVanishesTowardsTheCriticalPoint()
    {
        WorkingFluid methane = WorkingFluid.Pure("methane");
        double[] tensions = [.. new[] { 100, 150, 185, 190.4, 190.56 }.Select(t => methane.Saturation(Temperature.FromKelvins(t)).SurfaceTension.Value.NewtonsPerMeter)];
        Assert.Equal(tensions.OrderDescending(), tensions);
        Assert.All(tensions, v => Assert.InRange(v, 0, 0.02));
        Assert.True(tensions[^1] < 1e-5);
    }

    [Fact]
    public void EstimatedSurfaceTensionsSaySo()
    {
        SurfaceTension xenon = WorkingFluid.Pure("xenon").Saturation(Pressure.FromAtmospheres(1)).SurfaceTension;
        Assert.True(xenon.Method.IsEstimated);

        // Handbooks, from memory: about 18.7 mN/m at the boiling point.
        Assert.Equal(18.7, xenon.Value.MillinewtonsPerMeter, 18.7 * xenon.Method.UncertaintyPercent / 100);
        SurfaceTension blend = WorkingFluid.Mixture(("krypton", 0.5), ("xenon", 0.5)).BubblePoint(Temperature.FromKelvins(150)).SurfaceTension;
        Assert.Contains("parachor estimated for xenon", blend.Method.Description, StringComparison.Ordinal);
        Assert.InRange(blend.Value.MillinewtonsPerMeter, 8, 18);
    }

    private static State At(WorkingFluid fluid, double kelvins, double bars) => fluid.At(Temperature.FromKelvins(kelvins), Pressure.FromBars(bars));
}
