using CryoThermo.Insulation;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

public sealed class VacuumSpaceTests(ITestOutputHelper output)
{
    private static readonly Temperature Room = Temperature.FromKelvins(293.15);
    private static readonly WorkingFluid Air = WorkingFluid.Pure("air");

    [Fact]
    public void APumpAloneEmptiesASpaceExponentially()
    {
        const double Speed = 2e-3;
        const double Liters = 30;
        VacuumSpace space = new(Volume.FromLiters(Liters), Room);
        PumpSet pumps = new(new VacuumPump(VolumeFlow.FromCubicMetersPerSecond(Speed), 1e5));
        VacuumCourse course = space.PumpDown(pumps, Pressure.FromPascals(1e5), Duration.FromMinutes(10));
        double ultimate = 101325 / 1e5;
        foreach (VacuumPoint point in course.Points)
        {
            double exact = ultimate + ((1e5 - ultimate) * Math.Exp(-Speed * point.Time.Seconds / (Liters * 1e-3)));
            Assert.Equal(1, point.AbsolutePressure.Pascals / exact, 1e-6);
        }

        double time = Liters * 1e-3 / Speed * Math.Log((1e5 - ultimate) / (100 - ultimate));
        Assert.Equal(1, course.TimeTo(Pressure.FromPascals(100))!.Value.Seconds / time, 1e-4);
        Assert.Null(course.TimeTo(Pressure.FromPascals(1)));
        Assert.Contains("the pumps reach 1.01 Pa at no flow", course.Explanation, StringComparison.Ordinal);
        Assert.Equal(pumps.Ultimate.Pascals, space.HoldingPressure(pumps, Duration.Zero).AbsolutePressure.Pascals, 1e-9);
        output.WriteLine($"{course.Points.Count} points; {course.Explanation}");
    }

    [Fact]
    public void PumpsInSeriesPassOnWhatTheyTake()
    {
        VacuumPump first = new(VolumeFlow.FromCubicMetersPerHour(12), 40, Pressure.FromPascals(0.02));
        VacuumPump second = new(VolumeFlow.FromCubicMetersPerHour(3), 25, Pressure.FromPascals(0.5));
        PumpSet pumps = new(first, second);

        // At no flow each holds its ratio.
        Assert.Equal((((101325 / 25.0) + 0.5) / 40) + 0.02, pumps.Ultimate.Pascals, 1e-9);

        // S1 (p - p2/K1 - o1) = S2 (p2 - pa/K2 - o2), one linear equation for the pressure between.
        double s1 = 12 / 3600.0;
        double s2 = 3 / 3600.0;
        foreach (double p in new[] { 150.0, 1e3, 2e4, 9e4 })
        {
            double between = ((s1 * (p - 0.02)) + (s2 * ((101325 / 25.0) + 0.5))) / (s2 + (s1 / 40));
            PumpingResult result = pumps.At(Air, Room, Pressure.FromPascals(p));
            Assert.Equal(1, result.Inlets[1].Pascals / between, 1e-9);
            Assert.Equal(1, result.ThroughputPascalCubicMetersPerSecond / (s1 * (p - (between / 40) - 0.02)), 1e-8);
        }

        // One alone holds a ratio of 40: it does not come below 25 hPa.
        Assert.True(new PumpSet(first).Ultimate.Pascals > 2500 && pumps.Ultimate.Pascals < 102);
        Assert.Equal(0, pumps.At(Air, Room, Pressure.FromPascals(90)).ThroughputPascalCubicMetersPerSecond);
        PumpSet limited = new(new VacuumPump(VolumeFlow.FromCubicMetersPerHour(100), 1e6, highestInlet: Pressure.FromPascals(10)), second);
        Assert.Equal(0, limited.At(Air, Room, Pressure.FromPascals(50)).OverloadedPump);
        Assert.Null(limited.At(Air, Room, Pressure.FromPascals(5)).OverloadedPump);

        // Two pumps alike: the second stands at more pressure than the first, and is the one told.
        VacuumPump alike = new(VolumeFlow.FromCubicMetersPerHour(10), 1e3, highestInlet: Pressure.FromPascals(50));
        Assert.Equal(1, new PumpSet(alike, alike).At(Air, Room, Pressure.FromPascals(20)).OverloadedPump);
    }

    [Fact]
    public void ALineConductsWhatTheHandbooksTell()
    {
        // Air of 20 degC in a long tube, L/s with d and l in cm and p in mbar: C = 135 d^4 p/l + 12.1 d^3/l (1 + 192 d p)/(1 + 237 d p), Knudsen's formula
        // with the constants of the handbooks of vacuum technique (from memory; three digits). Ends left out: a length of 20 000 bores.
        foreach (double dp in new[] { 1e-6, 1e-3, 0.01, 0.1, 1, 10 })
        {
            const double D = 2;
            const double L = 40000;
            double mbar = dp / D;
            double published = (135 * Math.Pow(D, 4) * mbar / L) + (12.1 * Math.Pow(D, 3) / L * (1 + (192 * dp)) / (1 + (237 * dp)));
            double found = new PumpingLine(Length.FromCentimeters(L), Length.FromCentimeters(D)).Conductance(Air, Room, Pressure.FromMillibars(mbar)).LitersPerSecond;
            output.WriteLine($"d p = {dp} mbar cm: {found:G5} against {published:G5} L/s");
            Assert.Equal(1, found / published, 0.01);
        }

        // Behind a narrow line a pump keeps little of its speed: 1/S = 1/S0 + 1/C where C does not change.
        PumpingLine line = new(Length.FromMeters(1), Length.FromMillimeters(6));
        double c = line.Conductance(Air, Room, Pressure.Zero).CubicMetersPerSecond;
        PumpSet pumps = new([(line, new VacuumPump(VolumeFlow.FromCubicMetersPerHour(5), 1e12))]);
        double speed = pumps.At(Air, Room, Pressure.FromPascals(1e-4)).SpeedAtVacuum.CubicMetersPerSecond;
        Assert.Equal(1, speed / (1 / ((1 / c) + (3600 / 5.0))), 2e-3);
        Assert.True(speed < 0.02 * 5 / 3600);
        Assert.True(line.Conductance(WorkingFluid.Pure("helium"), Room, Pressure.Zero).CubicMetersPerSecond > 2.5 * c);
    }

    [Fact]
    public void AColdSurfaceTakesUpWhatFreezesOnIt()
    {
        // 14.7 L/(s cm2) of water vapour at 20 degC, 11.6 of air: sqrt(R T/(2 pi M)), as printed in handbooks of vacuum technique (from memory).
        ColdSurface surface = new(Area.FromSquareCentimeters(1), Temperature.FromKelvins(110));
        WorkingFluid water = WorkingFluid.Pure("water");
        Assert.Equal(14.7, surface.SpeedFor(water, Room).LitersPerSecond, 0.05);
        Assert.Equal(11.6, surface.SpeedFor(Air, Room).LitersPerSecond, 0.05);
        output.WriteLine($"balance: water {surface.BalancePascals(water, Room):E2} Pa, CO2 {surface.BalancePascals(WorkingFluid.Pure("carbon dioxide"), Room):E2} Pa");
        Assert.True(surface.BalancePascals(water, Room) < 1e-10);
        Assert.True(double.IsPositiveInfinity(surface.BalancePascals(WorkingFluid.Pure("helium"), Room)));

        // Carbon dioxide goes on boiling off at 110 K: the vapour pressure of its solid, flowing over from cold to warm (sqrt(T/Tc)).
        WorkingFluid dioxide = WorkingFluid.Pure("carbon dioxide");
        double solid = dioxide.Boundaries.SublimationPressure(Temperature.FromKelvins(120)).Pascals;
        Assert.Equal(1, new ColdSurface(surface.Area, Temperature.FromKelvins(120)).BalancePascals(dioxide, Room) / (solid * Math.Sqrt(293.15 / 120)), 1e-12);
        Assert.True(surface.BalancePascals(dioxide, Room) is > 0.1 and < 1);

        // Ice at 230 K: 8.94735 Pa (IAPWS R14-08, check value).
        Assert.Equal(8.94735 * Math.Sqrt(293.15 / 230), new ColdSurface(surface.Area, Temperature.FromKelvins(230)).BalancePascals(water, Room), 1e-5);
        Assert.True(new ColdSurface(surface.Area, Temperature.FromKelvins(80)).BalancePascals(dioxide, Room) < 1e-3);
        Assert.True(double.IsFinite(new ColdSurface(surface.Area, Temperature.FromKelvins(20)).BalancePascals(Air, Room)));

        // Without a pump: the water comes to rest where the surface takes what enters, the air does not.
        VacuumSpace space = new(
            Volume.FromLiters(5), Room, [new GasLoad("leak", "air", 1e-9), new GasLoad("moisture", "water", 1e-6)], coldSurfaces: [new ColdSurface(Area.FromSquareCentimeters(20), Temperature.FromKelvins(110), 0.8)]);
        VacuumCourse down = space.PumpDown(new PumpSet(VacuumPump.WithUltimate(VolumeFlow.FromCubicMetersPerHour(5), Pressure.FromPascals(0.1))), Pressure.FromPascals(1000), Duration.FromMinutes(20));
        VacuumCourse shut = space.Shut(down.Last, Duration.FromHours(10));
        Assert.Equal(1, shut.Last.PartialPressures["water"].Pascals / (1e-6 / (0.8 * 20 * 14.70e-3)), 3e-3);
        Assert.Equal(1, (shut.Last.PartialPressures["air"] - down.Last.PartialPressures["air"]).Pascals / (1e-9 * 36000 / 5e-3), 1e-6);
        Assert.Contains(shut.Flows, f => f.Gas == "water" && f.PascalCubicMetersPerSecond < 0 && f.Name.StartsWith("cold surface", StringComparison.Ordinal));
    }

    // Runge-Kutta in small even steps, with pumps of its own.
    [Fact]
    public void ACourseAgreesWithSmallSteps()
    {
        Random random = new(5);
        double worst = 0;
        for (int trial = 0; trial < 10; trial++)
        {
            double volume = 0.002 * Math.Pow(50, random.NextDouble());
            double s1 = 1e-3 * Math.Pow(10, random.NextDouble());
            double s2 = s1 * (0.2 + random.NextDouble());
            double k1 = 10 + (200 * random.NextDouble());
            double k2 = 10 + (200 * random.NextDouble());
            double leak = 1e-2 * Math.Pow(10, -3 * random.NextDouble());
            double area = 3 * random.NextDouble();
            double rate = 1e-3 * random.NextDouble();
            double power = 0.5 + random.NextDouble();
            double balance = 10 + (100 * random.NextDouble());
            VacuumSpace space = new(
                Volume.FromCubicMeters(volume),
                Room,
                [new GasLoad("leak", "nitrogen", leak)],
                [new OutgassingSurface("wall", Area.FromSquareMeters(area), rate, power, balance: Pressure.FromPascals(balance))]);
            PumpSet pumps = new(new VacuumPump(VolumeFlow.FromCubicMetersPerSecond(s1), k1), new VacuumPump(VolumeFlow.FromCubicMetersPerSecond(s2), k2));
            const double Span = 300;
            VacuumCourse course = space.PumpDown(pumps, Pressure.FromPascals(9e4), Duration.FromSeconds(Span));

            double[] p = [9e4, 0, 0];
            double step = Math.Min(0.2, 0.1 * volume / s1);
            int steps = (int)Math.Ceiling(Span / step);
            step = Span / steps;
            for (int i = 0; i < steps; i++)
            {
                double t = i * step;
                double[] a = Slopes(t, p);
                double[] b = Slopes(t + (0.5 * step), [.. p.Zip(a, (x, y) => x + (0.5 * step * y))]);
                double[] c = Slopes(t + (0.5 * step), [.. p.Zip(b, (x, y) => x + (0.5 * step * y))]);
                double[] d = Slopes(t + step, [.. p.Zip(c, (x, y) => x + (step * y))]);
                p = [.. p.Select((x, k) => x + (step / 6 * (a[k] + (2 * b[k]) + (2 * c[k]) + d[k])))];
            }

            double off = Math.Abs((course.Last.AbsolutePressure.Pascals / p.Sum()) - 1);
            worst = Math.Max(worst, off);
            Assert.True(off < 1e-4, $"trial {trial}: {course.Last.AbsolutePressure.Pascals} against {p.Sum()} Pa");
            Assert.Equal(1, course.Last.PartialPressures["water"].Pascals / p[2], 1e-3);

            double[] Slopes(double t, double[] at)
            {
                double total = at.Sum();
                double between = ((s1 * total) + (s2 * 101325 / k2)) / (s2 + (s1 / k1));
                double pumped = Math.Max(0, s1 * (total - (between / k1)));
                double given = area * rate * Math.Pow(3600 / Math.Max(60, t), power) * (1 - (at[2] / balance));
                return [-pumped * at[0] / total / volume, (leak - (pumped * at[1] / total)) / volume, (given - (pumped * at[2] / total)) / volume];
            }
        }

        output.WriteLine($"worst {worst:E2}");
    }

    [Fact]
    public void ItHoldsWhatItComesToAndTellsTheLeakAllowed()
    {
        ColdSurface cold = new(Area.FromSquareCentimeters(300), Temperature.FromKelvins(95), 0.9);
        OutgassingSurface wall = new("wall", Area.FromSquareMeters(0.8), 5e-5, exponent: 0);
        GasLoad leak = new("lid seal", "air", 3e-6);
        GasLoad permeation = new("o-ring", "nitrogen", 1e-6);
        PumpingLine hose = new(Length.FromMeters(1.5), Length.FromMillimeters(16));
        PumpSet pumps = new([(hose, new VacuumPump(VolumeFlow.FromLitersPerSecond(30), 1e6, highestInlet: Pressure.FromPascals(50))), (null, VacuumPump.WithUltimate(VolumeFlow.FromCubicMetersPerHour(2), Pressure.FromPascals(5)))]);
        VacuumSpace space = new(Volume.FromLiters(15), Room, [leak, permeation], [wall], [cold]);
        VacuumPoint held = space.HoldingPressure(pumps, Duration.FromHours(1));
        VacuumCourse course = space.PumpDown(pumps, Pressure.FromPascals(100), Duration.FromHours(2));
        output.WriteLine(course.ToTable().ToString());
        output.WriteLine($"{course.Points.Count} points, {held.AbsolutePressure.Pascals} Pa; {course.Explanation}");
        Assert.Equal(1, course.Last.AbsolutePressure.Pascals / held.AbsolutePressure.Pascals, 1e-5);
        Assert.Equal(0, course.Flows.Sum(f => f.PascalCubicMetersPerSecond) / course.Flows.Max(f => f.PascalCubicMetersPerSecond), 1e-5);

        Pressure wanted = held.AbsolutePressure * 3;
        double added = space.GreatestLeakPascalCubicMetersPerSecond(pumps, wanted, Duration.FromHours(1));
        VacuumSpace leakier = new(Volume.FromLiters(15), Room, [leak, permeation, new GasLoad("hole", "air", added)], [wall], [cold]);
        Assert.Equal(1, leakier.HoldingPressure(pumps, Duration.FromHours(1)).AbsolutePressure.Pascals / wanted.Pascals, 1e-8);
        Assert.Equal(0, space.GreatestLeakPascalCubicMetersPerSecond(pumps, held.AbsolutePressure, Duration.FromHours(1)) / added, 1e-6);
        Assert.True(space.GreatestLeakPascalCubicMetersPerSecond(pumps, held.AbsolutePressure * 0.9, Duration.FromHours(1)) < 0);
        Assert.Contains(course.Cautions, c => c.Advice.Contains("Local codes", StringComparison.Ordinal));
    }

    [Fact]
    public void BadInputIsNamed()
    {
        VacuumSpace space = new(Volume.FromLiters(15), Room, [new GasLoad("leak", "air", 1e3)]);
        PumpSet pumps = new(VacuumPump.WithUltimate(VolumeFlow.FromCubicMetersPerHour(2), Pressure.FromPascals(5)));
        Assert.Contains("mend the leak", Assert.Throws<ArgumentOutOfRangeException>(() => space.HoldingPressure(pumps, Duration.Zero)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => space.GreatestLeakPascalCubicMetersPerSecond(pumps, Pressure.FromPascals(4), Duration.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => new VacuumSpace(Volume.Zero, Room));
        Assert.Throws<ArgumentException>(() => new VacuumSpace(Volume.FromLiters(1), Room, [new GasLoad("leak", "phlogiston", 1)]));
        Assert.Throws<ArgumentException>(() => new PumpSet(Array.Empty<VacuumPump>()));
        Assert.Throws<ArgumentOutOfRangeException>(() => new VacuumPump(VolumeFlow.FromLitersPerSecond(1), 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => VacuumPump.WithUltimate(VolumeFlow.FromLitersPerSecond(1), Pressure.FromBars(2)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new OutgassingSurface("wall", Area.FromSquareMeters(1), -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => space.PumpDown(pumps, Pressure.Zero, Duration.FromHours(1)));
        VacuumPoint other = new(Duration.Zero, Pressure.FromPascals(1), new Dictionary<string, Pressure> { ["neon"] = Pressure.FromPascals(1) });
        Assert.Contains("neon", Assert.Throws<ArgumentException>(() => space.Shut(other, Duration.FromHours(1))).Message, StringComparison.Ordinal);
    }
}
