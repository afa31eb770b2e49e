using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;

namespace CryoThermo.Tests.HeatTransfer;

public sealed class PassageKernelTests
{
    private static readonly StreamProperties Stream = new(
        0.3, new(600, 150e-6, 0.12, 3000), new(10, 8e-6, 0.012, 1500), 0.012, 0.05, 4e5, 0.1, 0.030);

    private static readonly PassageKernel Tube = FlowPassage.RoundTube(Length.FromMillimeters(4), roughness: Length.Zero).Kernel;

    [Fact]
    public void GeometryIsThatOfTheTubes()
    {
        PassageKernel annulus = FlowPassage.Annulus(Length.FromMillimeters(6), Length.FromMillimeters(10)).Kernel;
        Assert.Equal(16e-6 * Math.PI, annulus.FlowArea, 1e-15);
        Assert.Equal(4e-3, annulus.HydraulicDiameter, 1e-15);
        Assert.Equal(6e-3 * Math.PI, annulus.InnerHeatedPerimeter, 1e-15);
        Assert.Equal(10e-3 * Math.PI, annulus.OuterHeatedPerimeter, 1e-15);
        Assert.Equal(16e-3 * Math.PI, annulus.WettedPerimeter, 1e-15);
        Assert.Equal(annulus.InnerHeatedPerimeter, annulus.HeatedPerimeter);
        PassageKernel around = FlowPassage.AroundTubes(5, Length.FromMillimeters(3), Length.FromMillimeters(12)).Kernel;
        Assert.Equal((144 - 45) * 0.25e-6 * Math.PI, around.FlowArea, 1e-15);
        Assert.Equal(15e-3 * Math.PI, around.HeatedPerimeter, 1e-15);
        Assert.Equal(99e-3 / 27, around.HydraulicDiameter, 1e-15);
        Assert.Equal(4e-3 * Math.PI, Tube.HeatedPerimeter, 1e-15);
        Assert.Equal(0, Tube.InnerHeatedPerimeter);
    }

    [Fact]
    public void DefaultsAreTheNamedCorrelations()
    {
        StreamProperties pure = Stream with { SensibleShare = 0 };

        // As in FilmCorrelationTests: Gungor and Winterton (1986) with and without nucleate boiling, Cavallini (2006), Mueller-Steinhagen and Heck, Rouhani and Axelsson.
        Assert.Equal(5512.3, Tube.Film(pure, 200, HeatDirection.Heated, double.PositiveInfinity, 5000).Coefficient, 0.05);
        double convective = GungorWintertonBoiling.Coefficient(pure, 200, 4e-3, 0);
        Assert.Equal(convective, Tube.Film(pure, 200, HeatDirection.Heated, double.PositiveInfinity, 0).Coefficient, 1e-9);
        FilmFigures condensing = Tube.Film(pure, 200, HeatDirection.Cooled, double.PositiveInfinity, 0);
        Assert.Equal(4454.9, condensing.Coefficient, 0.05);
        Assert.Equal((FilmRegime.Condensing, 0.3), (condensing.Regime, condensing.RelativeUncertainty));
        Assert.Equal(0.87537, Tube.VoidFraction(pure, 200), 5e-6);

        // The blend: vapour alone at Re = 30000 by Gnielinski in the way, heat flux or not.
        double vapor = TubeNusselt.Gnielinski(0.3 * 200 * 4e-3 / 8e-6, 1, 0) * 0.012 / 4e-3;
        FilmFigures blend = Tube.Film(Stream, 200, HeatDirection.Heated, double.PositiveInfinity, 5000);
        Assert.Equal(1 / ((1 / convective) + (0.05 / vapor)), blend.Coefficient, 1e-9);
        Assert.Equal((FilmRegime.Evaporating, 0.4), (blend.Regime, blend.RelativeUncertainty));

        // Friction between the ends of this passage.
        double liquid = FrictionFactor.Churchill(200 * 4e-3 / 150e-6) * 200 * 200 / (2 * 600 * 4e-3);
        double gas = FrictionFactor.Churchill(200 * 4e-3 / 8e-6) * 200 * 200 / (2 * 10 * 4e-3);
        Assert.Equal(TwoPhaseFriction.MuellerSteinhagenHeck(liquid, gas, 0.3), Tube.FrictionGradient(Stream, 200), 1e-9);

        // Within 1 % of the publication's own friction factors here, whose figure is 5089.2.
        Assert.Equal(1, Tube.FrictionGradient(Stream, 200) / 5089.2, 0.03);
    }

    [Fact]
    public void SinglePhasesReadTheirOwnFiguresAlone()
    {
        PhaseProperties none = new(double.NaN, double.NaN, double.NaN, double.NaN);
        StreamProperties vapor = new(1, none, Stream.Vapor, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN);
        StreamProperties liquid = new(0, Stream.Liquid, none, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN);
        FilmFigures gas = Tube.Film(vapor, 50, HeatDirection.Heated, double.PositiveInfinity, 1e4);
        Assert.Equal(TubeNusselt.Gnielinski(25000, 1, 0) * 3, gas.Coefficient, 1e-9);
        Assert.Equal((FilmRegime.Turbulent, 25000, 0.1), (gas.Regime, Math.Round(gas.Reynolds, 6), gas.RelativeUncertainty));
        FilmFigures cold = Tube.Film(liquid, 50, HeatDirection.Cooled, 2, 1e4);
        Assert.Equal(TubeNusselt.Laminar(50 * 4e-3 / 150e-6, 3.75, 2e-3) * 30, cold.Coefficient, 1e-9);
        Assert.Equal(FilmRegime.Laminar, cold.Regime);
        Assert.Equal(1, Tube.VoidFraction(vapor, 50));
        Assert.Equal(0, Tube.VoidFraction(liquid, 50));
        Assert.True(Tube.FrictionGradient(liquid, 50) > 0 && Tube.FrictionGradient(vapor, 50) > Tube.FrictionGradient(liquid, 50));
    }

    [Fact]
    public void TwoPhasesAreNotWorseThanTheLiquidAlone()
    {
        // Slow flow: Re of the liquid alone is 24, where the published forms stand on turbulent liquid and fall short of laminar flow.
        StreamProperties slow = Stream with { Quality = 0.1, SensibleShare = 0 };
        FilmFigures film = Tube.Film(slow, 1, HeatDirection.Heated, double.PositiveInfinity, 0);
        Assert.True(GungorWintertonBoiling.Coefficient(slow, 1, 4e-3, 0) < film.Coefficient);
        Assert.Equal(3.66 * 30, film.Coefficient, 1e-9);
        Assert.Equal(0.4, film.RelativeUncertainty, 1e-12);
    }

    [Fact]
    public void NucleateBoilingFadesWithTheGlide()
    {
        double last = double.PositiveInfinity;
        foreach (double share in new[] { 0, 0.005, 0.01, 0.015, 0.02, 0.03 })
        {
            StreamProperties p = Stream with { SensibleShare = share };
            double more = Tube.Film(p, 200, HeatDirection.Heated, double.PositiveInfinity, 5000).Coefficient
                - Tube.Film(p, 200, HeatDirection.Heated, double.PositiveInfinity, 0).Coefficient;
            Assert.True(share < 0.02 ? more > 0 && more < last : Math.Abs(more) < 1e-9);
            last = more;
        }
    }

    [Fact]
    public void NothingIsAllocated()
    {
        PassageKernel kernel = FlowPassage.Annulus(Length.FromMillimeters(6), Length.FromMillimeters(10), coilDiameter: Length.FromMillimeters(150)).Kernel;
        double sum = 0;
        for (int round = 0; round < 2; round++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            for (int i = 0; i < 100; i++)
            {
                StreamProperties p = Stream with { Quality = i / 99.0 };
                sum += kernel.Film(p, 100, HeatDirection.Heated, 1, 1000).Coefficient + kernel.Film(p, 100, HeatDirection.Cooled, 1, 0).Coefficient
                    + kernel.FrictionGradient(p, 100) + kernel.VoidFraction(p, 100);
            }

            Assert.True(round == 0 || GC.GetAllocatedBytesForCurrentThread() == before);
        }

        Assert.True(sum > 0);
    }

    [Property(MaxTest = 3000)]
    public void EverythingIsPositiveAndFinite(DoNotSize<int> seed)
    {
        Random random = new(seed.Item);
        PassageKernel kernel = RandomPassage(random).Kernel;
        StreamProperties p = RandomStream(random);
        double flux = Log(random, 1e-3, 1e5);
        double length = random.Next(3) == 0 ? double.PositiveInfinity : Log(random, 1e-4, 1e3);
        double heat = random.Next(2) == 0 ? 0 : Log(random, 1, 1e7);
        foreach (double x in new[] { p.Quality, 0, 1, Log(random, 1e-12, 1), 1 - Log(random, 1e-12, 1) })
        {
            StreamProperties at = p with { Quality = x };
            foreach (HeatDirection direction in Enum.GetValues<HeatDirection>())
            {
                FilmFigures film = kernel.Film(at, flux, direction, length, heat);
                Assert.True(film.Coefficient > 0 && double.IsFinite(film.Coefficient), $"{film} of {at}, {flux}, {direction}, {length}, {heat}");
                Assert.InRange(film.RelativeUncertainty, 0.05, 1);
            }

            double friction = kernel.FrictionGradient(at, flux);
            Assert.True(friction > 0 && double.IsFinite(friction), $"{friction} of {at}, {flux}");
            Assert.InRange(kernel.FrictionUncertainty(at, flux), 0.05, 1);
            Assert.InRange(kernel.VoidFraction(at, flux), 0, 1);
        }
    }

    [Property(MaxTest = 1000)]
    public void NothingStepsInQualityOrFlow(DoNotSize<int> seed)
    {
        Random random = new(seed.Item);
        FlowPassage passage = RandomPassage(random);
        PassageKernel kernel = passage.Kernel;
        StreamProperties p = RandomStream(random);
        double flux = Log(random, 1, 1e3);
        double length = random.Next(3) == 0 ? double.PositiveInfinity : Log(random, 1e-2, 10);
        double heat = random.Next(2) == 0 ? 0 : Log(random, 1, 1e5);
        HeatDirection direction = random.Next(2) == 0 ? HeatDirection.Heated : HeatDirection.Cooled;

        // Both ends and the joins; from an end, vapour comes in with the root of three of the quality.
        foreach ((double a, double b) in new[]
        {
            (0, 1e-16), (1, 1 - 2.3e-16), Around(0.01), Around(PassageKernel.JoinedFromLiquidTo), Around(PassageKernel.JoinedToVaporFrom), Around(0.5), Around(p.Quality),
        })
        {
            Same(p with { Quality = a }, flux, p with { Quality = b }, flux, 3e-4);
        }

        // The transitions of liquid alone and vapour alone, straight and coiled.
        double[] critical = passage.CoilDiameter is { } coil
            ? [FrictionFactor.CoilCriticalReynolds(kernel.HydraulicDiameter / coil.Meters), 1.5 * FrictionFactor.CoilCriticalReynolds(kernel.HydraulicDiameter / coil.Meters), 2.2e4, 2300, 4000]
            : [2300, 4000];
        foreach (double reynolds in critical)
        {
            double liquid = reynolds * p.Liquid.Viscosity / kernel.HydraulicDiameter;
            double vapor = reynolds * p.Vapor.Viscosity / kernel.HydraulicDiameter;
            foreach (double x in new[] { 0, 1, p.Quality })
            {
                foreach (double g in new[] { liquid, vapor, vapor / p.Quality, liquid / (1 - p.Quality) })
                {
                    Same(p with { Quality = x }, g * (1 - 1e-10), p with { Quality = x }, g * (1 + 1e-10), 1e-6);
                }
            }
        }

        (double, double) Around(double x) => (x * (1 - 1e-12), Math.Min(1, x * (1 + 1e-12)));

        void Same(in StreamProperties a, double fluxOfA, in StreamProperties b, double fluxOfB, double within)
        {
            Assert.True(
                Math.Abs(Math.Log(kernel.Film(a, fluxOfA, direction, length, heat).Coefficient / kernel.Film(b, fluxOfB, direction, length, heat).Coefficient)) < within,
                $"{kernel.Film(a, fluxOfA, direction, length, heat)} and {kernel.Film(b, fluxOfB, direction, length, heat)} of {a}, {fluxOfA} and {b}, {fluxOfB}, {direction}, {length}, {heat}");
            Assert.True(
                Math.Abs(Math.Log(kernel.FrictionGradient(a, fluxOfA) / kernel.FrictionGradient(b, fluxOfB))) < within,
                $"{kernel.FrictionGradient(a, fluxOfA)} and {kernel.FrictionGradient(b, fluxOfB)} Pa/m of {a}, {fluxOfA} and {b}, {fluxOfB}");
        }
    }

    [Fact]
    public void SlopesInQualityStayModerate()
    {
        // A coarse look at the whole range for figures like those of a cooler: no step of more than a tenth between neighbours of 0.2 %.
        foreach (HeatDirection direction in Enum.GetValues<HeatDirection>())
        {
            double last = Tube.Film(Stream with { Quality = 0 }, 200, direction, double.PositiveInfinity, 0).Coefficient;
            for (int i = 1; i <= 500; i++)
            {
                double x = i / 500.0;
                double next = Tube.Film(Stream with { Quality = x, SensibleShare = 0.15 * x }, 200, direction, double.PositiveInfinity, 0).Coefficient;
                Assert.InRange(next / last, 0.9, 1.1);
                last = next;
            }
        }
    }

    internal static FlowPassage RandomPassage(Random random)
    {
        Length outer = Length.FromMeters(Log(random, 1e-4, 0.2));
        Length? coil = random.Next(2) == 0 ? null : outer * Log(random, 3.4, 900);
        return random.Next(3) switch
        {
            0 => FlowPassage.RoundTube(outer, coil, random.Next(2) == 0 ? null : outer * Log(random, 1e-6, 0.04)),
            1 => FlowPassage.Annulus(outer * (0.01 + (0.98 * random.NextDouble())), outer, random.Next(2) == 0 ? PassageWall.Inner : PassageWall.Outer, coil),
            _ => FlowPassage.AroundTubes(5, outer * (0.01 + (0.35 * random.NextDouble())), outer, coil),
        };
    }

    private static StreamProperties RandomStream(Random random)
    {
        PhaseProperties liquid = new(Log(random, 50, 2000), Log(random, 1e-5, 1e-2), Log(random, 0.01, 0.3), Log(random, 500, 1e4));
        PhaseProperties vapor = new(
            Log(random, 0.1, 1) * Math.Min(100, liquid.Density), Log(random, 1e-6, 3e-5), Log(random, 0.003, 0.2), Log(random, 300, 1.5e4));
        return new(
            random.NextDouble(), liquid, vapor, Log(random, 1e-5, 0.05), random.Next(2) == 0 ? 0 : random.NextDouble(), Log(random, 1e3, 6e5), Log(random, 1e-3, 1.5), Log(random, 2e-3, 0.2));
    }

    private static double Log(Random random, double low, double high) => low * Math.Pow(high / low, random.NextDouble());
}
