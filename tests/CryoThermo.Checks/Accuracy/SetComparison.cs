using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>A model against a measured set.</summary>
/// <param name="Figures">Deviations by quantity (and component).</param>
/// <param name="Points">Number of points tried.</param>
/// <param name="NotSolved">Points where the model has no such equilibrium.</param>
/// <param name="Flagged">
/// Points where the answer is metastable: a bubble or dew point above which another phase exists, or a single-phase state where the model
/// has two phases or another one.
/// </param>
public sealed record SetComparison(IReadOnlyList<Deviations> Figures, int Points, int NotSolved, int Flagged)
{
    /// <summary>The deviations of a quantity; null when the set does not have it.</summary>
    public Deviations? Of(MeasuredQuantity quantity, string? of) => Figures.FirstOrDefault(f => f.Quantity == quantity && (of is null || f.Of == of));

    /// <summary>Compares.</summary>
    /// <param name="set">Measured set.</param>
    /// <param name="model">Model.</param>
    /// <param name="catalog">Where the pair parameters come from.</param>
    /// <param name="points">Which points.</param>
    public static SetComparison Create(MeasuredSet set, FluidModel model, SubstanceCatalog catalog, IEnumerable<int> points)
    {
        Work work = new(set, model, catalog);
        int tried = 0;
        foreach (int point in points)
        {
            tried++;
            work.Add(point);
        }

        return new(
            [.. work.Values.Select(v => new Deviations(v.Key.Quantity, v.Key.Of, [.. v.Value.Select(p => p.Value)], [.. v.Value.Select(p => p.Point)]))], tried, work.NotSolved, work.Flagged);
    }

    /// <summary>Points where every component is present; the end points of a mixture set belong to its pure fluids.</summary>
    public static IReadOnlyList<int> Inner(MeasuredSet set) =>
        [.. Enumerable.Range(0, set.Points.Count).Where(point => set.Components.Count == 1
            || (set.FractionsOf(point, BulkOf(set)) is not { } x ? set.Kind != MeasuredKind.VaporComposition : x.All(f => f > 0)))];

    /// <summary>Evenly picked points, first and last among them.</summary>
    public static IEnumerable<int> Evenly(IReadOnlyList<int> points, int most) =>
        points.Count <= most ? points : Enumerable.Range(0, most).Select(i => points[(int)Math.Round(i * (points.Count - 1.0) / (most - 1))]);

    private static MeasuredQuantity BulkOf(MeasuredSet set) => set.Kind switch
    {
        MeasuredKind.VaporLiquid or MeasuredKind.Bubble or MeasuredKind.BubbleWithDensity or MeasuredKind.LiquidComposition => MeasuredQuantity.LiquidFraction,
        MeasuredKind.Dew or MeasuredKind.VaporComposition => MeasuredQuantity.VaporFraction,
        _ => MeasuredQuantity.OverallFraction,
    };

    private sealed class Work(MeasuredSet set, FluidModel model, SubstanceCatalog catalog)
    {
        public SortedDictionary<(MeasuredQuantity Quantity, string? Of), List<(int Point, double Value)>> Values { get; } = [];

        private int current;

        public int NotSolved { get; private set; }

        public int Flagged { get; private set; }

        public void Add(int point)
        {
            current = point;
            double temperature = set.ValueOf(point, MeasuredQuantity.Temperature) ?? throw new InvalidOperationException($"{set.Name}: a point without temperature.");
            bool solved = set.Kind switch
            {
                MeasuredKind.VaporLiquid or MeasuredKind.Bubble or MeasuredKind.BubbleWithDensity or MeasuredKind.LiquidComposition => Bubble(point, temperature),
                MeasuredKind.Dew => Dew(point, temperature),
                MeasuredKind.VaporComposition => VaporComposition(point, temperature),
                MeasuredKind.VaporPressure or MeasuredKind.SaturatedLiquidDensity => Saturated(point, temperature),
                _ => SinglePhase(point, temperature),
            };
            NotSolved += solved ? 0 : 1;
        }

        private WorkingFluid FluidOf(double[] x) =>
            catalog.Mixture([.. set.Components.Select((name, i) => (name, x[i]))]).WithModel(model);

        private void Relative(MeasuredQuantity quantity, double computed, double? measured)
        {
            if (measured is { } value)
            {
                Put(quantity, null, 100 * ((computed / value) - 1));
            }
        }

        private void Put(MeasuredQuantity quantity, string? of, double value)
        {
            if (!Values.TryGetValue((quantity, of), out List<(int Point, double Value)>? list))
            {
                Values[(quantity, of)] = list = [];
            }

            list.Add((current, value));
        }

        private void Fractions(Composition computed, double[]? measured)
        {
            for (int i = 0; measured is not null && i < measured.Length; i++)
            {
                Put(MeasuredQuantity.VaporFraction, set.Components[i], computed.MoleFractions[i] - measured[i]);
            }
        }

        private bool Bubble(int point, double temperature)
        {
            if (set.FractionsOf(point, MeasuredQuantity.LiquidFraction) is not { } x)
            {
                return true;
            }

            if (!FluidOf(x).TryUnsplitPoint(true, Temperature.FromKelvins(temperature), out State? state))
            {
                return false;
            }

            Flagged += state.HasUnresolvedPhase ? 1 : 0;
            Relative(MeasuredQuantity.Pressure, state.Pressure.Pascals, set.ValueOf(point, MeasuredQuantity.Pressure));
            if (set.Kind == MeasuredKind.VaporLiquid)
            {
                Fractions(state.Phases[0].Composition, set.FractionsOf(point, MeasuredQuantity.VaporFraction));
            }

            Relative(MeasuredQuantity.Density, state.Phases[1].MolarDensity.MolesPerCubicMeter, set.ValueOf(point, MeasuredQuantity.MolarDensity));
            return true;
        }

        private bool Dew(int point, double temperature)
        {
            if (set.FractionsOf(point, MeasuredQuantity.VaporFraction) is not { } y
                || !FluidOf(y).TryUnsplitPoint(false, Temperature.FromKelvins(temperature), out State? state))
            {
                return false;
            }

            Flagged += state.HasUnresolvedPhase ? 1 : 0;
            Relative(MeasuredQuantity.Pressure, state.Pressure.Pascals, set.ValueOf(point, MeasuredQuantity.Pressure));
            return true;
        }

        // At given temperature and pressure a binary vapour has one composition (two around an azeotrope: the nearer one is taken).
        private bool VaporComposition(int point, double temperature)
        {
            double[] measured = set.FractionsOf(point, MeasuredQuantity.VaporFraction)!;
            Pressure pressure = Pressure.FromPascals(set.ValueOf(point, MeasuredQuantity.Pressure)!.Value);
            State? best = null;
            for (int step = 0; step <= 100; step++)
            {
                double first = step == 0 ? measured[0] : (step - 0.5) / 100;
                State state = FluidOf([first, 1 - first]).At(Temperature.FromKelvins(temperature), pressure);
                if (state.Phases.Count == 2 && state.Phases[0].Kind == PhaseKind.Vapor
                    && (best is null || Miss(state) < Miss(best) - 1e-9))
                {
                    best = state;
                }
            }

            if (best is null)
            {
                return false;
            }

            Flagged += best.HasUnresolvedPhase ? 1 : 0;
            Fractions(best.Phases[0].Composition, measured);
            return true;

            double Miss(State state) => Math.Abs(state.Phases[0].Composition.MoleFractions[0] - measured[0]);
        }

        private bool Saturated(int point, double temperature)
        {
            WorkingFluid fluid = FluidOf([1]);
            if (!(temperature < fluid.Kernel.Equation.CriticalTemperature(0)))
            {
                return false;
            }

            Saturation saturation = fluid.Saturation(Temperature.FromKelvins(temperature));
            Relative(MeasuredQuantity.Pressure, saturation.Pressure.Pascals, set.ValueOf(point, MeasuredQuantity.Pressure));
            Relative(MeasuredQuantity.Density, saturation.Liquid.Density.KilogramsPerCubicMeter, set.ValueOf(point, MeasuredQuantity.MassDensity));
            return true;
        }

        private bool SinglePhase(int point, double temperature)
        {
            if (set.FractionsOf(point, set.Components.Count == 1 ? MeasuredQuantity.LiquidFraction : MeasuredQuantity.OverallFraction) is not { } z)
            {
                return true;
            }

            double pressure = set.ValueOf(point, MeasuredQuantity.Pressure)!.Value;
            WorkingFluid fluid = FluidOf(z);
            if (pressure > fluid.Kernel.HighestPressure)
            {
                return false;
            }

            double mass = fluid.Composition.MolarMass.KilogramsPerMole;
            State state = fluid.At(Temperature.FromKelvins(temperature), Pressure.FromPascals(pressure));
            double[] scratch = new double[fluid.Kernel.Equation.ScratchLength];
            fluid.Kernel.Equation.SetTemperature(temperature, scratch);
            PhaseFigures[] candidates =
            [
                fluid.Kernel.Phase(temperature, pressure, z, DensityRoot.Liquid, scratch),
                fluid.Kernel.Phase(temperature, pressure, z, DensityRoot.Vapor, scratch),
            ];

            // The root nearer to the measured value is compared; flagged where the model has two phases there, or the other phase.
            Nearest(MeasuredQuantity.Density, f => f.MolarDensity * mass, set.ValueOf(point, MeasuredQuantity.MassDensity));
            Nearest(MeasuredQuantity.SpeedOfSound, f => f.SpeedOfSound, set.ValueOf(point, MeasuredQuantity.SpeedOfSound));
            Nearest(MeasuredQuantity.HeatCapacity, f => f.IsobaricHeatCapacity, set.ValueOf(point, MeasuredQuantity.IsobaricHeatCapacity));
            Nearest(MeasuredQuantity.HeatCapacity, f => f.IsochoricHeatCapacity, set.ValueOf(point, MeasuredQuantity.IsochoricHeatCapacity));
            return true;

            void Nearest(MeasuredQuantity quantity, Func<PhaseFigures, double> of, double? measured)
            {
                if (measured is { } value)
                {
                    PhaseFigures nearest = candidates.MinBy(f => Math.Abs(of(f) - value));
                    Flagged += state.Phases.Count > 1 || Math.Abs((nearest.MolarDensity / state.Phases[0].MolarDensity.MolesPerCubicMeter) - 1) > 1e-6 ? 1 : 0;
                    Relative(quantity, of(nearest), value);
                }
            }
        }
    }
}
