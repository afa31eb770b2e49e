using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// Gas left in a space, from high vacuum to the atmosphere: heat it carries between two walls, by free molecules, as a continuum with natural convection,
/// and between the two by the interpolation of Sherman. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Least and greatest are judged here: both accommodation coefficients at half and at 1, the continuum 10 % off, Sherman's interpolation 10 % off
/// between its limits. The pressure is taken as what the gauge reads, corrected for the gas if the gauge asks for it: a thermal or ionisation gauge set for
/// nitrogen reads other gases wrong by a factor.
/// </remarks>
public sealed record ResidualGas
{
    private static readonly Source FreeSource = new(
        "R. J. Corruccini, Vacuum 7-8 (1959) 19; E. H. Kennard, Kinetic Theory of Gases", FromMemory: true, Verified: "constants of air, helium and hydrogen as published: 1.2, 2.1 and 4.4 W/(m2 Pa K)");

    private static readonly Source BetweenSource = new(
        "F. S. Sherman (1963); G. S. Springer, Adv. Heat Transfer 7 (1971): follows measured parallel plates within 5 to 10 %", FromMemory: true, Verified: "limits by construction");

    /// <summary>Describes the gas.</summary>
    /// <param name="gas">What it is, for example <c>WorkingFluid.Pure("nitrogen")</c>.</param>
    /// <param name="pressure">Absolute, as read, 1e-8 Pa to 2 bar.</param>
    /// <param name="gaugeTemperature">Where the gauge sits, 3 to 500 K; 300 K where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public ResidualGas(WorkingFluid gas, Pressure pressure, Temperature? gaugeTemperature = null)
    {
        ArgumentNullException.ThrowIfNull(gas);
        Guard.InRange(pressure.Pascals, 1e-8, 2e5, "Pa absolute", nameof(pressure));
        Temperature gauge = gaugeTemperature ?? Temperature.FromKelvins(300);
        Guard.InRange(gauge.Kelvins, 3, 500, "K", nameof(gaugeTemperature));
        Gas = gas;
        Pressure = pressure;
        GaugeTemperature = gauge;
    }

    /// <summary>What it is.</summary>
    public WorkingFluid Gas { get; }

    /// <summary>Absolute, as read.</summary>
    public Pressure Pressure { get; }

    /// <summary>Where the gauge sits.</summary>
    public Temperature GaugeTemperature { get; }

    /// <summary>
    /// Heat of free molecules with full accommodation for each area, pressure and kelvin, W/(m2 Pa K): (gamma+1)/(gamma-1) times sqrt(R/(8 pi M T)),
    /// T that of the gauge and gamma of the ideal gas there.
    /// </summary>
    public double FreeMolecularCoefficientWattsPerSquareMeterPascalKelvin =>
        Coefficient(Gas.IdealGasHeatCapacity(GaugeTemperature.Kelvins), Gas.Composition.MolarMass.KilogramsPerMole);

    /// <summary>Heat across a gap.</summary>
    /// <param name="gap">The space.</param>
    /// <param name="inner">The wall enclosed, or either of two plates.</param>
    /// <param name="outer">The wall around it.</param>
    /// <exception cref="ArgumentException">The transport properties of the gas are not known between the walls' temperatures.</exception>
    public ResidualGasResult Across(GasGap gap, GasSurface inner, GasSurface outer)
    {
        ArgumentNullException.ThrowIfNull(gap);
        ArgumentNullException.ThrowIfNull(inner);
        ArgumentNullException.ThrowIfNull(outer);
        (double own, double around) = (inner.Temperature.Kelvins, outer.Temperature.Kelvins);
        DiluteGas gas = DiluteGas.Between(Gas, own, around);
        double p = Pressure.Pascals;
        double difference = around - own;
        List<string> notes = [];
        double first = inner.Accommodation ?? Accommodation.Of(Gas, inner.Temperature);
        double second = outer.Accommodation ?? Accommodation.Of(Gas, outer.Temperature);
        bool isTaken = inner.Accommodation is null || outer.Accommodation is null;
        if (isTaken && Accommodation.KeyOf(Gas) is null)
        {
            notes.Add($"No accommodation coefficient of {Gas.Composition} is known here: 1 is taken, the most that can be.");
        }

        // Ideal gas with the heat capacity of the mean: internal energy is carried like that of translation.
        double coefficient = Coefficient(gas.HeatCapacity, gas.MolarMass) * p * difference;
        double density = p * gas.MolarMass / (SubstanceReader.GasConstant * gas.MeanTemperature);
        double rayleigh = Medium.Gravity * Math.Abs(difference) / gas.MeanTemperature * Math.Pow(gap.RayleighLength, 3)
            * density * density * gas.HeatCapacity / gas.MolarMass / (gas.Viscosity * gas.Conductivity);
        double nusselt = gap.Nusselt(rayleigh, gas.Prandtl);
        if (double.IsNaN(nusselt))
        {
            nusselt = 1;
            if (rayleigh > 1000)
            {
                notes.Add($"At a Rayleigh number of {rayleigh:G3} the gas does not stay still; convection between spheres is not in the figure.");
            }
        }

        double free = Factor(first, second, gap.AreaRatio) * coefficient;
        double continuum = nusselt * gas.Conductivity / gap.ConductanceLength * difference;
        double path = gas.MeanFreePathPressure / p;
        double knudsen = path / gap.Width.Meters;
        GasRegime regime = knudsen < 0.01 ? GasRegime.Continuum : knudsen < 0.1 ? GasRegime.TemperatureJump : knudsen <= 10 ? GasRegime.Transition : GasRegime.FreeMolecular;
        double colder = Math.Min(own, around);
        foreach (Substance component in Gas.Composition.Components)
        {
            if (component.TripleTemperature is { } triple && colder < triple && component.Name != "helium")
            {
                notes.Add($"{component.Name} freezes on a wall of {colder:F1} K: the pressure is held up only while more of it comes.");
            }
        }

        double Between(double molecular, double whole) => difference == 0 ? 0 : molecular * whole / (molecular + whole);
        double flux = Between(free, continuum);

        // Sherman's form is exact at its limits and doubted most midway.
        double doubt = difference == 0 ? 0 : 0.1 * 4 * free * continuum / ((free + continuum) * (free + continuum));
        double one = Between(Factor(0.5 * first, 0.5 * second, gap.AreaRatio) * coefficient, 0.9 * continuum) * (1 - doubt);
        double other = Between(coefficient, 1.1 * continuum) * (1 + doubt);
        return new(
            new(Flux(flux), Flux(Math.Min(one, other)), Flux(Math.Max(one, other))),
            Flux(free),
            Flux(continuum),
            knudsen,
            regime,
            Length.FromMeters(path),
            nusselt,
            Factor(first, second, gap.AreaRatio),
            isTaken ? [FreeSource, BetweenSource, Accommodation.Source] : [FreeSource, BetweenSource],
            notes);
    }

    private static HeatFlux Flux(double value) => HeatFlux.FromWattsPerSquareMeter(value);

    /// <summary>Accommodation of two walls together: M. Knudsen; R. J. Corruccini (1959).</summary>
    private static double Factor(double inner, double outer, double areaRatio) => 1 / ((1 / inner) + (areaRatio * ((1 / outer) - 1)));

    private double Coefficient(double heatCapacity, double molarMass) =>
        ((2 * heatCapacity / SubstanceReader.GasConstant) - 1) * Math.Sqrt(SubstanceReader.GasConstant / (8 * Math.PI * molarMass * GaugeTemperature.Kelvins));
}
