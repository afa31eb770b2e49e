using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random phases of random fluids: viscosity and conductivity finite and positive, without steps over temperature and density, and a mixture that
/// becomes pure tends to the pure fluid.
/// </summary>
public static class TransportSoak
{
    // Substances with and without data of their own.
    private static readonly string[] Substances =
    [
        "nitrogen", "argon", "oxygen", "methane", "ethylene", "ethane", "propylene", "propane", "isobutane", "n-butane", "isopentane", "krypton", "neon",
        "hydrogen", "helium", "carbon dioxide", "R-14", "R-23", "xenon", "carbon monoxide", "R-32", "R-134a", "n-pentane", "R-218", "parahydrogen", "water",
    ];

    private const int Steps = 60;
    private const double LowestTemperature = 60;
    private const double HighestTemperature = 400;
    private const double LimitShare = 1e-8;

    /// <summary>A step is told from a steep curve by its neighbours: so many times the larger of them, and this much beside it.</summary>
    private const double MostOverNeighbours = 5;
    private const double Unnoticed = 2e-3;

    /// <summary>One case.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        CaseRandom random = new(seed, number);
        int count = random.Whole(4) == 0 ? 1 : 2 + random.Whole(5);
        string[] pool = [.. Substances];
        for (int i = 0; i < count; i++)
        {
            int pick = i + random.Whole(pool.Length - i);
            (pool[i], pool[pick]) = (pool[pick], pool[i]);
        }

        double[] z = new double[count];
        random.Simplex(z, random.Whole(3) == 0 ? 3 : 1);
        double temperature = random.Uniform(LowestTemperature, HighestTemperature);
        double pressure = 1e3 * Math.Pow(1e4, random.Uniform());
        string inputs = $"seed {seed} case {number}: {temperature:R} K, {pressure:R} Pa, {string.Join(", ", z.Select((v, i) => $"{pool[i]} {v:R}"))}";
        WorkingFluid fluid = count == 1 ? WorkingFluid.Pure(pool[0]) : WorkingFluid.Mixture([.. z.Select((v, i) => (pool[i], v))]);
        State state;
        try
        {
            state = fluid.At(Temperature.FromKelvins(temperature), Pressure.FromPascals(pressure));
        }
        catch (ArgumentOutOfRangeException error) when (error.ParamName is "temperature" or "pressure")
        {
            // Below the lowest temperature of the equation of state: no phase to ask.
            return new(null, 0, false, 0);
        }

        double worst = 0;
        foreach (Phase phase in state.Phases)
        {
            if ((Figures(phase) ?? Smooth(fluid, phase, temperature) ?? Limits(fluid, phase, temperature, ref worst)) is { } failure)
            {
                return new($"{inputs}: {phase.Kind}, {phase.MolarDensity.MolesPerCubicMeter:R} mol/m3: {failure}", state.Phases.Count, state.HasUnresolvedPhase, worst);
            }
        }

        if (state.Phases.Count == 2 && state.VaporFraction is > 0 and < 1)
        {
            double tension = state.SurfaceTension.Value.NewtonsPerMeter;
            if (!(tension >= 0 && tension < 1))
            {
                return new($"{inputs}: surface tension {tension:R} N/m", 2, state.HasUnresolvedPhase, worst);
            }
        }

        return new(null, Math.Min(state.Phases.Count, 3), state.HasUnresolvedPhase, worst);
    }

    private static string? Figures(Phase phase)
    {
        TransportProperties t = phase.Transport;
        double viscosity = t.Viscosity.PascalSeconds;
        double conductivity = t.ThermalConductivity.WattsPerMeterKelvin;

        // Far below its range an equation of state may have phases of negative heat capacity; that is told elsewhere.
        bool hasSoundHeatCapacity = phase.IsobaricHeatCapacity.JoulesPerMoleKelvin > 0;
        return viscosity > 0 && double.IsFinite(viscosity) && conductivity > 0 && double.IsFinite(conductivity)
            && double.IsFinite(t.PrandtlNumber) && t.PrandtlNumber > 0 == hasSoundHeatCapacity
            && t.ViscosityMethod.UncertaintyPercent > 0 && t.ConductivityMethod.UncertaintyPercent > 0
            ? null
            : $"viscosity {viscosity:R} Pa s, conductivity {conductivity:R} W/(m K), Prandtl {t.PrandtlNumber:R}";
    }

    /// <summary>
    /// Over temperature at the density, and over density at the temperature, of a liquid near its own only, since there is none between it and the
    /// vapour: composition and density of a phase follow T and p without a step.
    /// </summary>
    private static string? Smooth(WorkingFluid fluid, Phase phase, double temperature)
    {
        TransportKernel kernel = fluid.TransportKernel;
        double[] x = [.. phase.Composition.MoleFractions];
        double density = phase.MolarDensity.MolesPerCubicMeter;
        double span = Math.Min(40, temperature - LowestTemperature + 5);
        double lowest = phase.Kind == PhaseKind.Vapor ? 0.1 : 0.95;
        return Step("viscosity over temperature", s => kernel.Viscosity(temperature + (span * (s - 0.5)), density, x))
            ?? Step("conductivity over temperature", s => kernel.BackgroundConductivity(temperature + (span * (s - 0.5)), density, x))
            ?? Step("viscosity over density", s => kernel.Viscosity(temperature, density * (lowest + ((1 - lowest) * s)), x))
            ?? Step("conductivity over density", s => kernel.BackgroundConductivity(temperature, density * (lowest + ((1 - lowest) * s)), x));
    }

    private static string? Step(string what, Func<double, double> of)
    {
        double[] ln = new double[Steps + 1];
        for (int i = 0; i <= Steps; i++)
        {
            double value = of((double)i / Steps);
            if (!(value > 0 && double.IsFinite(value)))
            {
                return $"{what}: {value:R} at step {i}";
            }

            ln[i] = Math.Log(value);
        }

        for (int i = 1; i < Steps - 1; i++)
        {
            double here = Math.Abs(ln[i + 1] - ln[i]);
            double beside = Math.Max(Math.Abs(ln[i] - ln[i - 1]), Math.Abs(ln[i + 2] - ln[i + 1]));
            if (here > (MostOverNeighbours * beside) + Unnoticed)
            {
                return $"{what}: a step of {here:E2} beside {beside:E2} at step {i}";
            }
        }

        return null;
    }

    /// <summary>Nearly all of one component: the value of corresponding states of the pure fluid, at the reduced density of the phase.</summary>
    private static string? Limits(WorkingFluid fluid, Phase phase, double temperature, ref double worst)
    {
        TransportKernel kernel = fluid.TransportKernel;
        int n = kernel.Components.Count;
        if (n == 1)
        {
            return null;
        }

        double reduced = kernel.ReducedDensity(phase.MolarDensity.MolesPerCubicMeter, [.. phase.Composition.MoleFractions]);
        double[] x = new double[n];
        for (int i = 0; i < n; i++)
        {
            Array.Fill(x, LimitShare / (n - 1));
            x[i] = 1 - LimitShare;
            TransportComponent component = kernel.Components[i];
            double density = reduced / component.Coefficients.CriticalMolarVolume;
            double viscosity = Math.Abs((kernel.Viscosity(temperature, density, x) / component.ViscosityByStates(temperature, density)) - 1);
            double conductivity = Math.Abs((kernel.BackgroundConductivity(temperature, density, x) / component.ConductivityByStates(temperature, density)) - 1);
            worst = Math.Max(worst, Math.Max(viscosity, conductivity));

            // A part in a hundred million of another component moves no figure by more than a thousand times as much.
            if (!(Math.Max(viscosity, conductivity) < 1000 * LimitShare))
            {
                return $"nearly pure {component.Name}: viscosity off by {viscosity:E2}, conductivity by {conductivity:E2}";
            }
        }

        return null;
    }
}
