using CryoThermo.Checks.Accuracy;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>Random states of every Helmholtz equation of the catalogue over its stated range.</summary>
public static class PureFluidSoak
{
    private static readonly (string Fluid, EquationStandard Standard)[] Equations =
    [
        .. SubstanceCatalog.Default.All.SelectMany(s => s.Equations.Select(e => (s.Name, e.Standard))),
    ];

    private static readonly WorkingFluid[] Fluids = [.. Equations.Select(e => EquationCalculations.Fluid(e.Fluid, e.Standard))];

    /// <summary>Number of equations.</summary>
    public static int EquationCount => Fluids.Length;

    /// <summary>One case: the equations take turns.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        WorkingFluid fluid = Fluids[number % Fluids.Length];
        HelmholtzEquation equation = fluid.Pedigree.Equation!;
        Random random = new(unchecked((seed * 1_000_003) + number));
        double temperature = TemperatureOf(equation, random);
        double highest = HighestPressure(equation, temperature);
        double pressure = highest * Math.Exp(-25 * random.NextDouble());
        string inputs = $"case {number}: {Equations[number % Fluids.Length].Fluid}, {equation.Standard}, {temperature:R} K, {pressure:R} Pa";
        Temperature t = Temperature.FromKelvins(temperature);
        Pressure p = Pressure.FromPascals(pressure);
        State state;
        try
        {
            state = fluid.At(t, p);
        }
        catch (ArgumentOutOfRangeException error) when (equation.IsPseudoPure && error.Message.Contains("dew and bubble line", StringComparison.Ordinal))
        {
            return new(null, 2, false, 0);
        }

        Phase phase = state.Phases[0];
        double cv = phase.IsochoricHeatCapacity.JoulesPerMoleKelvin;
        double cp = phase.IsobaricHeatCapacity.JoulesPerMoleKelvin;
        if (!(cv > 0 && cp >= cv * (1 - 1e-9) && phase.SpeedOfSound.MetersPerSecond > 0 && double.IsFinite(state.MolarEntropy.JoulesPerMoleKelvin)))
        {
            return new($"{inputs}: cv {cv}, cp {cp} J/(mol K), speed of sound {phase.SpeedOfSound}", 1, false, 0);
        }

        // The density asked back for its pressure.
        State back = fluid.AtDensity(t, state.MolarDensity);
        double stiffness = 1 / (phase.IsothermalCompressibility.InversePascals * pressure);
        double miss = Math.Abs((back.Pressure.Pascals / pressure) - 1) / (1 + stiffness);
        if (!(miss < 1e-9))
        {
            return new($"{inputs}: density {state.MolarDensity.MolesPerCubicMeter:R} mol/m3 gives {back.Pressure.Pascals:R} Pa", 1, false, miss);
        }

        string? failure = LowerPhase(fluid, state) ?? (number % 7 == 0 ? RoundTrip(fluid, state) : null);
        return new(failure is null ? null : $"{inputs}: {failure}", 1, false, miss);
    }

    // A third over the range, a third where both phases exist, a third next to the critical temperature.
    private static double TemperatureOf(HelmholtzEquation equation, Random random)
    {
        double low = equation.Range.LowestTemperature;
        double high = equation.Range.HighestTemperature;
        double critical = equation.CriticalPoint.Temperature;
        return Math.Min(
            high,
            random.Next(3) switch
            {
                0 => low * Math.Pow(high / low, random.NextDouble()),
                1 => low + ((critical - low) * random.NextDouble()),
                _ => Math.Max(low, critical * (1 + ((random.NextDouble() - 0.5) * Math.Pow(10, -6 * random.NextDouble())))),
            });
    }

    // Up to the melting line; where none is given, up to pressures at which no known fluid is solid yet.
    private static double HighestPressure(HelmholtzEquation equation, double temperature)
    {
        double reduced = temperature / equation.CriticalPoint.Temperature;
        double most = reduced switch { < 1.5 => 10, < 3 => 50, _ => double.PositiveInfinity } * equation.CriticalPoint.Pressure;
        if (equation.MeltingPressure is { } melting && temperature >= melting.LowestTemperature && temperature <= melting.HighestTemperature)
        {
            most = Math.Max(melting.At(temperature), equation.TriplePressure ?? 0);
        }

        return Math.Min(equation.Range.HighestPressure, most);
    }

    private static string? LowerPhase(WorkingFluid fluid, State state)
    {
        PhaseKind other = state.Phases[0].Kind == PhaseKind.Liquid ? PhaseKind.Vapor : PhaseKind.Liquid;
        State second;
        try
        {
            second = fluid.MetastableAt(state.Temperature, state.Pressure, other);
        }
        catch (Exception error) when (error is ArgumentOutOfRangeException or InvalidOperationException)
        {
            return null;
        }

        double difference = second.MolarGibbsEnergy.JoulesPerMole - state.MolarGibbsEnergy.JoulesPerMole;
        double scale = fluid.Kernel.Equation.GasConstant * state.Temperature.Kelvins;
        return difference < -1e-8 * scale - (1e-13 * Math.Abs(state.MolarEnthalpy.JoulesPerMole))
            ? $"the {other} has a lower Gibbs energy by {difference:E2} J/mol"
            : null;
    }

    private static string? RoundTrip(WorkingFluid fluid, State state)
    {
        State byEnthalpy = fluid.AtEnthalpy(state.Pressure, state.MolarEnthalpy);
        State byEntropy = fluid.AtEntropy(state.Pressure, state.MolarEntropy);
        double t = state.Temperature.Kelvins;
        return Math.Abs((byEnthalpy.Temperature.Kelvins / t) - 1) < 1e-9 && Math.Abs((byEntropy.Temperature.Kelvins / t) - 1) < 1e-9
            ? null
            : $"enthalpy leads back to {byEnthalpy.Temperature.Kelvins:R} K, entropy to {byEntropy.Temperature.Kelvins:R} K";
    }
}
