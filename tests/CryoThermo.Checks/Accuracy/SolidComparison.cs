using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium.Solids;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>A model against a measured set with a solid: ln of the fugacity of the solid's substance in the fluid over that of its pure solid, zero if met.</summary>
/// <param name="Set">The set.</param>
/// <param name="Model">The model.</param>
/// <param name="LnRatios">One value a point solved: positive where the model freezes more readily.</param>
/// <param name="Kelvins">The same as an error of the freezing temperature, calculated minus measured, K; empty for sublimation.</param>
/// <param name="NotSolved">Points the model has no answer for.</param>
public sealed record SolidComparison(SolidSet Set, FluidModel Model, IReadOnlyList<double> LnRatios, IReadOnlyList<double> Kelvins, int NotSolved)
{
    private const double SlopeStep = 0.25;

    private static readonly Lazy<IReadOnlyList<SolidComparison>> Everything = new(
        () => [.. CheckValues.SolidSets.SelectMany(_ => Models!, Of)]);

    /// <summary>The models compared.</summary>
    public static IReadOnlyList<FluidModel> Models { get; } = [FluidModel.Recommended, FluidModel.PengRobinson];

    /// <summary>All sets with all models.</summary>
    public static IReadOnlyList<SolidComparison> All => Everything.Value;

    /// <summary>Of frost points the same with the fluid solved, where a model may have liquid at the measured point; empty for other sets.</summary>
    public IReadOnlyList<double> LnRatiosSolved { get; init; } = [];

    /// <summary>Mean of the absolute values of the ln ratios.</summary>
    public double MeanAbsolute => LnRatios.Average(Math.Abs);

    /// <summary>Mean absolute error of the freezing temperature, K.</summary>
    public double MeanKelvins => Kelvins.Count == 0 ? double.NaN : Kelvins.Average(Math.Abs);

    /// <summary>The fluid of a set at some composition.</summary>
    public static WorkingFluid FluidOf(SolidSet set, double[] x, FluidModel model) =>
        WorkingFluid.Mixture([.. set.Components.Select((name, i) => (name, x[i]))]).WithModel(model);

    private static SolidComparison Of(SolidSet set, FluidModel model)
    {
        List<double> ratios = [];
        List<double> kelvins = [];
        List<double> solved = [];
        int notSolved = 0;
        for (int point = 0; point < set.Points.Count; point++)
        {
            double t = set.Temperature(point);
            WorkingFluid fluid = FluidOf(set, set.Fractions(point), model);
            SolidMixture solids = new(fluid.Kernel, fluid.Composition.Components);
            if (set.Kind == SolidKind.Sublimation)
            {
                // So thin a vapour is an ideal gas.
                double p = set.Pressure(point)!.Value;
                ratios.Add(Math.Log(p) - solids[0]!.LnFugacity(t, p));
                continue;
            }

            double pressure;
            if (set.Pressure(point) is { } measured)
            {
                pressure = measured;
            }
            else if (fluid.TryBubblePoint(Temperature.FromKelvins(t), out State? bubble))
            {
                pressure = bubble.Pressure.Pascals;
            }
            else
            {
                notSolved++;
                continue;
            }

            DensityRoot? phase = set.Kind switch
            {
                SolidKind.Solubility or SolidKind.Liquidus => DensityRoot.Liquid,
                SolidKind.Frost => DensityRoot.Vapor,
                _ => null,
            };
            double ratio = LnRatio(solids, fluid, t, pressure, phase);
            double slope = (LnRatio(solids, fluid, t + SlopeStep, pressure, phase) - LnRatio(solids, fluid, t - SlopeStep, pressure, phase)) / (2 * SlopeStep);
            ratios.Add(ratio);
            kelvins.Add(-ratio / slope);
            if (set.Kind == SolidKind.Frost)
            {
                solved.Add(LnRatio(solids, fluid, t, pressure, null));
            }
        }

        return new(set, model, ratios, kelvins, notSolved) { LnRatiosSolved = solved };
    }

    // Where the phase is told with the measurement, its root is forced: a saturated liquid, a gas at its frost point. Elsewhere the fluid is solved.
    private static double LnRatio(SolidMixture solids, WorkingFluid fluid, double t, double p, DensityRoot? phase)
    {
        double[] z = [.. fluid.Composition.MoleFractions];
        double[] values = new double[z.Length];
        if (phase is not { } root)
        {
            solids.LnFugacityOverAmount(fluid.Kernel.At(t, p, z), values);
            return values[0] + Math.Log(z[0]) - solids[0]!.LnFugacity(t, p);
        }

        MixtureKernel equation = fluid.Kernel.Equation;
        double[] scratch = new double[equation.ScratchLength];
        equation.SetTemperature(t, scratch);
        equation.LnFugacityCoefficients(t, p, z, root, scratch, values, out _);
        return values[0] + Math.Log(z[0] * p) - solids[0]!.LnFugacity(t, p);
    }
}
