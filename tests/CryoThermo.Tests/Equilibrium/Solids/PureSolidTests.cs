using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium.Solids;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests.Equilibrium.Solids;

public sealed class PureSolidTests
{
    public static TheoryData<string, string> Cases
    {
        get
        {
            TheoryData<string, string> cases = [];
            foreach (string name in SubstanceCatalog.Default.All.Where(s => s.Solid is not null).Select(s => s.Name))
            {
                cases.Add(name, "recommended");
                cases.Add(name, "peng-robinson");
            }

            return cases;
        }
    }

    /// <summary>At the triple point solid, liquid and (at the vapour pressure of the model) vapour have one fugacity.</summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void SolidAndFluidFugacityAgreeAtTheTriplePoint(string name, string model)
    {
        WorkingFluid fluid = FluidOf(name, model);
        PureSolid solid = SolidOf(fluid);
        double t = solid.Properties.TripleTemperature;
        double p = fluid.Saturation(Temperature.FromKelvins(t)).Pressure.Pascals;
        double[] scratch = new double[fluid.Kernel.Equation.ScratchLength];
        double[] lnPhi = new double[1];
        fluid.Kernel.Equation.SetTemperature(t, scratch);
        fluid.Kernel.Equation.LnFugacityCoefficients(t, p, [1.0], DensityRoot.Vapor, scratch, lnPhi, out _);

        // The model's own vapour pressure differs a little from the triple pressure: the volume term between the two is what is left.
        double shift = Math.Abs((solid.Properties.VolumeChange ?? 0) * (p - (solid.Properties.TriplePressure ?? 0)) / (8.314462618 * t));
        Assert.Equal(lnPhi[0] + Math.Log(p), solid.LnFugacity(t, p), 1e-8 + (1.001 * shift));
    }

    /// <summary>Continuous where the liquid is left for the sublimation line, at low and high pressure; the pressure term there by the solid's volume.</summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void NothingJumpsWhereTheLiquidIsLeft(string name, string model)
    {
        PureSolid solid = SolidOf(FluidOf(name, model));
        double t = solid.JoinTemperature;
        foreach (double p in new[] { 10.0, 1e5, 2e6 })
        {
            double above = solid.LnFugacity(t * (1 + 1e-9), p);
            double below = solid.LnFugacity(t * (1 - 1e-9), p);
            Assert.True(Math.Abs(above - below) < 1e-6, $"{name}: {above} above, {below} below {t} K at {p} Pa");
            Assert.True(solid.LnFugacity(0.6 * t, p) < below);
        }

        Assert.Null(solid.BasisNote(t));
        Assert.NotNull(solid.BasisNote(0.9 * t));
    }

    /// <summary>Gibbs-Helmholtz: the slope over inverse temperature is minus the enthalpy of sublimation, which lies above that of vaporization.</summary>
    [Fact]
    public void TheEnthalpyOfSublimationOfCarbonDioxideIsFoundAgain()
    {
        PureSolid solid = SolidOf(WorkingFluid.Pure("carbon dioxide"));

        // 25.2 to 26.3 kJ/mol between 195 and 150 K: common tables, from memory.
        foreach ((double t, double low, double high) in new[] { (190.0, 24500.0, 26500.0), (160, 25500, 27500), (120, 26000, 28000) })
        {
            double slope = (solid.LnFugacity(t + 0.5, 10) - solid.LnFugacity(t - 0.5, 10)) * 8.314462618 * t * t;
            Assert.InRange(slope, low, high);
        }
    }

    /// <summary>The lines of the catalogue are followed in ratio: below the join two temperatures differ as the published line does.</summary>
    [Fact]
    public void BelowTheJoinThePublishedLineIsFollowed()
    {
        Substance substance = SubstanceCatalog.Default.Find("water");
        PureSolid solid = SolidOf(WorkingFluid.Pure("water"));
        SaturationCurve line = Assert.Single(substance.Solid!.SublimationPressures);

        // Check value of IAPWS R14-08(2011), from memory: 8.94735 Pa at 230 K.
        Assert.Equal(8.94735, line.At(230), 1e-4);
        Assert.Equal(Math.Log(line.At(150) / line.At(190)), solid.LnFugacity(150, 1e-3) - solid.LnFugacity(190, 1e-3), 1e-6);
    }

    internal static WorkingFluid FluidOf(string name, string model) =>
        WorkingFluid.Pure(name).WithModel(model == "recommended" ? FluidModel.Recommended : FluidModel.PengRobinson);

    private static PureSolid SolidOf(WorkingFluid fluid) => new SolidMixture(fluid.Kernel, fluid.Composition.Components)[0]!;
}
