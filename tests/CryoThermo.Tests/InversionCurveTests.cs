using UnitsNet;

namespace CryoThermo.Tests;

public sealed class InversionCurveTests
{
    public static TheoryData<string> Fluids => ["nitrogen", "blend", "multi-fluid", "argon-cubic"];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void ThrottlingNeitherCoolsNorWarmsOnTheCurve(string name)
    {
        WorkingFluid fluid = Of(name);
        InversionCurve curve = fluid.JouleThomsonInversion.Curve();
        Assert.NotEqual(InversionCurveEnd.NotContinued, curve.LowerEnd);
        Assert.InRange(curve.Points.Count, 20, 300);
        int compared = 0;
        foreach (InversionPoint point in curve.Points.Where(p => p.Pressure.Bars > 1))
        {
            // The coefficient of an independent flash, against that of the same temperature at low pressure.
            State state = fluid.At(point.Temperature, point.Pressure);
            Assert.Single(state.Phases);
            Assert.InRange(state.JouleThomsonCoefficientKelvinsPerBar!.Value, -2e-7, 2e-7);
            compared++;
        }

        Assert.InRange(compared, 15, 300);
        InversionPoint peak = curve.HighestPressure!;
        Assert.Equal(curve.Points.Max(p => p.Pressure.Pascals), peak.Pressure.Pascals);
        Assert.InRange(curve.PointAt(peak.Temperature)!.Pressure.Pascals / peak.Pressure.Pascals, 1 - 1e-9, 1 + 1e-9);
    }

    [Fact]
    public void TheEndsAreToldAndAgreeWithTheOldAnswers()
    {
        JouleThomsonInversion inversion = WorkingFluid.Pure("nitrogen").JouleThomsonInversion;
        InversionCurve curve = inversion.Curve();
        Assert.Equal(InversionCurveEnd.ZeroPressure, curve.UpperEnd);
        Assert.Equal(InversionCurveEnd.PhaseBoundary, curve.LowerEnd);
        Assert.Equal(inversion.HighestTemperature!.Value.Kelvins, curve.Points[0].Temperature.Kelvins, 1e-6);
        Assert.Equal(inversion.PressureAt(Temperature.FromKelvins(300))!.Value.Bars, curve.PointAt(Temperature.FromKelvins(300))!.Pressure.Bars, 1e-5);

        // At the cold end the liquid stands at its vapour pressure.
        InversionPoint cold = curve.Points[^1];
        Saturation saturation = WorkingFluid.Pure("nitrogen").Saturation(cold.Temperature);
        Assert.InRange(cold.Pressure.Pascals / saturation.Pressure.Pascals, 1 - 1e-5, 1 + 1e-5);
        Assert.Null(curve.PointAt(Temperature.FromKelvins(50)));
    }

    private static WorkingFluid Of(string name) => name switch
    {
        "nitrogen" => WorkingFluid.Pure("nitrogen"),
        "argon-cubic" => WorkingFluid.Pure("argon").WithModel(FluidModel.SoaveRedlichKwong),
        "multi-fluid" => WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.3), ("argon", 0.2)),
        _ => WorkingFluid.Mixture(("nitrogen", 0.6), ("argon", 0.2), ("methane", 0.2)).WithModel(FluidModel.SoaveRedlichKwong),
    };
}
