using CryoThermo.Insulation;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

public sealed class InsulatedSurfaceTests(ITestOutputHelper output)
{
    private static readonly PorousInsulation Foam = PorousInsulation.Named("polyurethane foam, 32 kg/m3");

    private static Temperature K(double kelvins) => Temperature.FromKelvins(kelvins);

    /// <summary>Through a slab by a fine march of k(T) dT/dx, with the fit written out here once more: Marquardt, Le and Radebaugh (2000), polyurethane foam.</summary>
    [Fact]
    public void ASlabTakesWhatAMarchThroughItGives()
    {
        double[] fit = [-3218.679, 9201.61, -10956.66, 6950.102, -2476.94, 470.284, -37.1669];
        double Conductivity(double t)
        {
            double sum = 0;
            for (int i = 0; i < fit.Length; i++)
            {
                sum += fit[i] * Math.Pow(Math.Log10(t), i);
            }

            return Math.Pow(10, sum);
        }

        const double Thickness = 0.05;
        double flux = (double)new InsulatedSurface(InsulatedBody.Wall(Area.FromSquareMeters(1)), Foam, Length.FromMeters(Thickness)).Heat(K(90), K(295)).Nominal.Watts;
        double t = 90;
        const int Steps = 20_000;
        for (int i = 0; i < Steps; i++)
        {
            // Midpoint rule.
            double half = t + (0.5 * Thickness / Steps * flux / Conductivity(t));
            t += Thickness / Steps * flux / Conductivity(half);
        }

        output.WriteLine($"{flux:F4} W/m2, the march ends at {t:F5} K");
        Assert.Equal(295, t, 0.01);
    }

    /// <summary>
    /// Edges and corners of a box against a solution of Laplace's equation by differences, an eighth of a cube of 1 within a cube of 2: Langmuir's form is one of an experiment and told
    /// to hold within a few percent.
    /// </summary>
    [Fact]
    public void TheShapeOfABoxIsThatOfLaplacesEquation()
    {
        double Solve(int cells)
        {
            // Grid over 0 to 1 from the middle of the cube, the inner face at 0.5; symmetry at 0.
            int n = (2 * cells) + 1;
            double[,,] u = new double[n, n, n];
            const double Over = 1.85;
            for (int sweep = 0; sweep < 400; sweep++)
            {
                for (int i = 0; i < n - 1; i++)
                {
                    for (int j = 0; j < n - 1; j++)
                    {
                        for (int k = 0; k < n - 1; k++)
                        {
                            if (i <= cells && j <= cells && k <= cells)
                            {
                                u[i, j, k] = 1;
                                continue;
                            }

                            double sum = u[i + 1, j, k] + u[Math.Abs(i - 1), j, k] + u[i, j + 1, k] + u[i, Math.Abs(j - 1), k] + u[i, j, k + 1] + u[i, j, Math.Abs(k - 1)];
                            u[i, j, k] += Over * ((sum / 6) - u[i, j, k]);
                        }
                    }
                }
            }

            // Energy of the field is the shape factor: sum over links, weighted by how much of the eighth they belong to.
            double h = 0.5 / cells;
            double energy = 0;
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    for (int k = 0; k < n; k++)
                    {
                        double wi = i == 0 ? 0.5 : 1;
                        double wj = j == 0 ? 0.5 : 1;
                        double wk = k == 0 ? 0.5 : 1;
                        energy += i < n - 1 ? wj * wk * Square(u[i + 1, j, k] - u[i, j, k]) : 0;
                        energy += j < n - 1 ? wi * wk * Square(u[i, j + 1, k] - u[i, j, k]) : 0;
                        energy += k < n - 1 ? wi * wj * Square(u[i, j, k + 1] - u[i, j, k]) : 0;
                    }
                }
            }

            return 8 * energy * h;
        }

        double coarse = Solve(8);
        double fine = Solve(16);
        double limit = fine + ((fine - coarse) / 1.5); // edges make the error fall a little slower than with the square of the step
        double langmuir = InsulatedBody.Box(Length.FromMeters(1), Length.FromMeters(1), Length.FromMeters(1)).Shape(0.5);
        output.WriteLine($"differences {coarse:F3}, {fine:F3}, limit about {limit:F3}; Langmuir {langmuir:F3} m");
        Assert.Equal(1, langmuir / limit, 0.04);

        static double Square(double x) => x * x;
    }

    /// <summary>A thin pipe: up to an outer radius of conductivity over coefficient more insulation lets in more heat, past it less.</summary>
    [Fact]
    public void AThinPipeHasACriticalRadius()
    {
        PorousInsulation foam = PorousInsulation.Named("polystyrene foam, 39 kg/m3");
        InsulatedBody pipe = InsulatedBody.Cylinder(Length.FromMillimeters(3), Length.FromMeters(1));
        HeatTransferCoefficient film = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(8);
        double Heat(double radius) => (double)new InsulatedSurface(pipe, foam, Length.FromMeters(radius - 0.0015), outsideCoefficient: film).Heat(K(150), K(295)).Nominal.Watts;
        double critical = new InsulatedSurface(pipe, foam, Length.FromMillimeters(1), outsideCoefficient: film).CriticalRadius(K(150), K(295))!.Value.Meters;
        Assert.Equal(0.033 / 8, critical, 1e-9);
        Assert.True(Heat(critical) > Heat(0.7 * critical));
        Assert.True(Heat(critical) > Heat(1.5 * critical));
        Assert.Equal(0, (Heat(critical * 1.001) - Heat(critical * 0.999)) / Heat(critical), 1e-5);
        Assert.Null(new InsulatedSurface(pipe, foam, Length.FromMillimeters(1)).CriticalRadius(K(150), K(295)));
    }

    [Fact]
    public void HeatThroughTheFilmIsThatThroughTheInsulation()
    {
        Random random = new(5);
        for (int i = 0; i < 200; i++)
        {
            double size = 0.02 + random.NextDouble();
            Length l = Length.FromMeters(size);
            InsulatedBody body = random.Next(4) switch
            {
                0 => InsulatedBody.Wall(Area.FromSquareMeters(size * size)),
                1 => InsulatedBody.Cylinder(l, Length.FromMeters(1)),
                2 => InsulatedBody.Sphere(l),
                _ => InsulatedBody.Box(l, l * 1.3, l * 2),
            };
            PorousInsulation[] known = [.. PorousInsulation.All.Where(p => p.IsKnownAtOneAtmosphere)];
            PorousInsulation insulation = known[random.Next(known.Length)];
            double thickness = 0.005 + (0.09 * random.NextDouble());
            double h = 2 + (20 * random.NextDouble());
            double cold = 78 + (120 * random.NextDouble());
            InsulatedSurface surface = new(body, insulation, Length.FromMeters(thickness), outsideCoefficient: HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(h));
            var heat = surface.Heat(K(cold), K(296));
            var outside = surface.Outside(K(cold), K(296));
            double through = h * body.OuterArea(thickness) * (296 - outside.Nominal.Kelvins);
            Assert.Equal(1, through / (double)heat.Nominal.Watts, 1e-6);
            Assert.True(heat.Least <= heat.Nominal && heat.Nominal <= heat.Greatest);
            Assert.True(outside.Least <= outside.Nominal && outside.Nominal <= outside.Greatest && outside.Greatest.Kelvins <= 296);
            Assert.True(heat.Nominal < new InsulatedSurface(body, insulation, Length.FromMeters(thickness)).Heat(K(cold), K(296)).Nominal);
        }
    }

    [Fact]
    public void WhatIsOutOfRangeIsNamed()
    {
        InsulatedBody wall = InsulatedBody.Wall(Area.FromSquareMeters(1));
        Assert.Equal("thickness", Assert.Throws<ArgumentOutOfRangeException>(() => new InsulatedSurface(wall, Foam, Length.Zero)).ParamName);
        Assert.Equal("thickness", Assert.Throws<ArgumentOutOfRangeException>(
            () => new InsulatedSurface(InsulatedBody.Box(Length.FromCentimeters(1), Length.FromCentimeters(1), Length.FromCentimeters(1)), Foam, Length.FromCentimeters(6))).ParamName);
        Assert.Equal("room", Assert.Throws<ArgumentOutOfRangeException>(() => new InsulatedSurface(wall, Foam, Length.FromCentimeters(5)).Heat(K(200), K(100))).ParamName);
    }
}
