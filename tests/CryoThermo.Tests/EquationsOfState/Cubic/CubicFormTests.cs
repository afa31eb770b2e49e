using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

public sealed class CubicFormTests
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void ConstantsMeetTheCriticalConditions(bool pengRobinson)
    {
        CubicForm form = pengRobinson ? CubicForm.PengRobinson : CubicForm.SoaveRedlichKwong;
        PlainCubic plain = new(pengRobinson, [new(1, 1, new PlainAlpha.Soave(0), 0)], new double[1, 1]);
        Assert.Equal(plain.Delta1, form.Delta1, 1e-15);
        Assert.Equal(plain.Delta2, form.Delta2, 1e-15);
        Assert.Equal(plain.Omega.A, form.OmegaA, 2e-15);
        Assert.Equal(plain.Omega.B, form.OmegaB, 2e-15);

        // Tc = 1, pc = 1: p(vc) = 1 and both slopes vanish; the terms they are made of are of the order of 10 to 1000.
        double critical = form.CriticalCompressibility * PlainCubic.R;
        Dual<Dual<Real>> p = plain.Pressure(Seed.Mixed(1, false, false), Seed.Twice(critical), [Seed.Mixed(1, false, false)]);
        Assert.Equal(1, p.Value.Value.Value, 1e-13);
        Assert.Equal(0, p.First() * critical, 1e-13);
        Assert.Equal(0, p.Second() * critical * critical, 1e-12);
    }

    [Fact]
    public void CriticalConstantsOfAComponentAreTheCriticalPointOfTheMixtureKernel()
    {
        Random random = new(5);
        for (int k = 0; k < 50; k++)
        {
            SampleCubics sample = SampleCubics.Random(random, shifted: true);
            double[] scratch = new double[sample.Kernel.ScratchLength];
            for (int i = 0; i < sample.Components.Length; i++)
            {
                double[] pure = new double[sample.Components.Length];
                pure[i] = 1;
                double tc = sample.Kernel.CriticalTemperature(i);
                double density = sample.Kernel.CriticalDensity(i);
                sample.Kernel.SetTemperature(tc, scratch);
                double pc = sample.Kernel.CriticalPressure(i);
                Assert.Equal(1, sample.Kernel.Pressure(tc, density, pure, scratch, out double slope) / pc, 1e-12);
                Assert.Equal(0, slope / density / pc, 1e-12);
                sample.Kernel.Pressure(tc, density * 1.001, pure, scratch, out double denser);
                sample.Kernel.Pressure(tc, density / 1.001, pure, scratch, out double lighter);
                Assert.True(denser < 0 && lighter < 0, "the slope must be negative on both sides of the critical point");
                Assert.Equal(1, sample.Kernel.ReducedVolume(density, pure), 1e-12);
            }
        }
    }
}
