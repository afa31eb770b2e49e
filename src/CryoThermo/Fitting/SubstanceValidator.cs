using System.Globalization;
using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.IdealGas;
using CryoThermo.Substances;

namespace CryoThermo.Fitting;

/// <summary>
/// Checks what the Helmholtz equations of a substance compute: critical point, saturation against the independent curves, boiling and
/// triple point, ideal-gas heat capacity, stability of single phases and consistency of the derivatives. For whoever adds a fluid; the
/// structural checks (<see cref="StructuralValidator"/>) come before. Thread-safe.
/// </summary>
/// <remarks>
/// The bounds tell a slip of a digit, an exponent or a column from the scatter between good publications; they are common practice, no
/// source. A valid substance can still be inaccurate: only measurements tell.
/// </remarks>
public static class SubstanceValidator
{
    private const double CriticalTemperatureTolerance = 1e-6;
    private const double CriticalPressureTolerance = 1e-5;
    private const double DistanceToMeasuredCriticalPoint = 0.01;
    private const double DerivativeTolerance = 1e-6;
    private const double HeatCapacityTolerance = 0.02;
    private const double LowestCurvePressure = 1000;
    private const double HighestCurveTemperature = 0.95;

    private static readonly string[] Names =
    [
        "critical point", "coexistence", "saturation curves", "boiling point", "triple point", "ideal-gas heat capacity", "stability", "derivatives",
    ];

    /// <summary>Makes all checks of all equations of a substance. Takes some hundredths of a second an equation.</summary>
    /// <param name="substance">The substance.</param>
    /// <returns>The findings; none for a substance without Helmholtz equations.</returns>
    public static ValidationReport Validate(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        List<ValidationFinding> findings = [];
        for (int i = 0; i < substance.Equations.Count; i++)
        {
            new EquationCheck(substance, substance.Equations[i], $"equations[{i}]", findings).Run();
        }

        return new(substance.Name, Names, findings);
    }

    private sealed class EquationCheck(Substance substance, HelmholtzEquation equation, string place, List<ValidationFinding> findings)
    {
        private readonly HelmholtzFluid fluid = new(equation, substance.AcentricFactor);
        private readonly bool isReference = equation.Standard == EquationStandard.Reference;
        private double[] scratch = [];

        public void Run()
        {
            scratch = new double[fluid.ScratchLength];
            if (!equation.IsPseudoPure)
            {
                if (!CriticalPoint() || !Coexistence())
                {
                    return;
                }

                Curve(equation.VaporPressure, "vaporPressure", "Pa", isReference ? 0.005 : 0.01, (p, _, _) => p);
                Curve(equation.SaturatedLiquidDensity, "liquidDensity", "mol/m3", isReference ? 0.005 : 0.01, (_, liquid, _) => liquid);
                Curve(equation.SaturatedVaporDensity, "vaporDensity", "mol/m3", isReference ? 0.01 : 0.02, (_, _, vapor) => vapor);
                BoilingPoint();
                TriplePoint();
            }

            HeatCapacity();
            Stability();
            Derivatives();
        }

        private void Report(string check, string subject, string value, string allowed, string message) =>
            findings.Add(new(check, $"{place}.{subject}", value, allowed, $"{substance.Name}, {equation.Standard} equation: {message}"));

        private static string Text(double value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{value:G7} {unit}");

        private bool CriticalPoint()
        {
            FluidPoint stated = equation.CriticalPoint;
            FluidPoint found;
            try
            {
                found = CriticalPointSolver.Find(fluid, stated);
            }
            catch (InvalidOperationException error)
            {
                Report("critical point", "criticalPoint", "none", $"near {Text(stated.Temperature, "K")}", error.Message);
                return false;
            }

            if (Math.Abs((found.Temperature / stated.Temperature) - 1) > CriticalTemperatureTolerance
                || Math.Abs((found.Pressure / stated.Pressure) - 1) > CriticalPressureTolerance)
            {
                Report(
                    "critical point",
                    "criticalPoint",
                    $"{Text(stated.Temperature, "K")}, {Text(stated.Pressure, "Pa")}",
                    $"{Text(found.Temperature, "K")}, {Text(found.Pressure, "Pa")}, {Text(found.MolarDensity, "mol/m3")}",
                    "dp/drho and d2p/drho2 do not vanish at the point given but where 'allowed' says.");
            }

            if (Math.Abs((found.Temperature / substance.CriticalTemperature) - 1) > DistanceToMeasuredCriticalPoint)
            {
                Report(
                    "critical point",
                    "criticalPoint.temperature",
                    Text(found.Temperature, "K"),
                    $"{Text(substance.CriticalTemperature, "K")} within 1 %",
                    "the equation's critical temperature is far from that of the substance.");
            }

            return true;
        }

        private bool Coexistence()
        {
            double lowest = fluid.LowestTemperature;
            if (lowest > equation.Range.LowestTemperature)
            {
                Report(
                    "coexistence",
                    "range.lowestTemperature",
                    Text(equation.Range.LowestTemperature, "K"),
                    $"at least {Text(lowest, "K")}",
                    "liquid and vapour cannot be followed down to the lowest temperature of the range.");
                return false;
            }

            return true;
        }

        private void Curve(SaturationCurve? curve, string field, string unit, double tolerance, Func<double, double, double, double> pick)
        {
            if (curve is null)
            {
                return;
            }

            double low = Math.Max(curve.LowestTemperature, equation.Range.LowestTemperature);
            double high = Math.Min(curve.HighestTemperature, HighestCurveTemperature * equation.CriticalPoint.Temperature);
            for (int k = 0; k <= 40; k++)
            {
                double t = low + ((high - low) * k / 40);
                if (!fluid.TrySaturation(t, scratch, out double p, out double liquid, out double vapor))
                {
                    Report("saturation curves", $"saturationCurves.{field}", Text(t, "K"), "a saturation", "liquid and vapour are not found in equilibrium at this temperature.");
                    return;
                }

                double computed = pick(p, liquid, vapor);
                double stated = curve.At(t);
                if (p > LowestCurvePressure && !(Math.Abs((stated / computed) - 1) <= tolerance))
                {
                    Report(
                        "saturation curves",
                        $"saturationCurves.{field}",
                        $"{Text(stated, unit)} at {Text(t, "K")}",
                        $"{Text(computed, unit)} within {100 * tolerance:G2} %",
                        "the curve and the equation of state disagree.");
                    return;
                }
            }
        }

        private void BoilingPoint()
        {
            double tolerance = isReference ? 0.02 : 0.1;
            if (substance.NormalBoilingTemperature is not { } stated || !(equation.CriticalPoint.Pressure > IdealGasFunction.ReferencePressure))
            {
                return;
            }

            if (!fluid.TryBoiling(IdealGasFunction.ReferencePressure, scratch, out double boiling, out _, out _) || Math.Abs(boiling - stated) > tolerance)
            {
                Report(
                    "boiling point",
                    "densityTerms",
                    Text(boiling, "K"),
                    $"{Text(stated, "K")} within {tolerance} K",
                    "the equation boils elsewhere at 101325 Pa than the substance.");
            }
        }

        private void TriplePoint()
        {
            double tolerance = isReference ? 0.05 : 0.2;
            if (equation is { TripleTemperature: { } t, TriplePressure: { } stated }
                && t >= fluid.LowestTemperature
                && fluid.TrySaturation(t, scratch, out double p, out _, out _)
                && Math.Abs((p / stated) - 1) > tolerance)
            {
                Report(
                    "triple point", "triplePoint.pressure", Text(stated, "Pa"), $"{Text(p, "Pa")} within {100 * tolerance:G2} %", "the equation has another vapour pressure at the triple point.");
            }
        }

        private void HeatCapacity()
        {
            IdealGasHeatCapacity own = equation.IdealGas.HeatCapacity;
            IdealGasHeatCapacity other = substance.IdealGasHeatCapacity;
            double low = Math.Max(Math.Max(own.LowestTemperature, other.LowestTemperature), equation.Range.LowestTemperature);
            double high = Math.Min(Math.Min(own.HighestTemperature, other.HighestTemperature), equation.Range.HighestTemperature);
            for (int k = 0; k <= 40 && low < high; k++)
            {
                double t = low + ((high - low) * k / 40);
                double value = own.OverGasConstant(t);
                double expected = other.OverGasConstant(t);
                if (!(Math.Abs((value / expected) - 1) <= HeatCapacityTolerance))
                {
                    Report(
                        "ideal-gas heat capacity",
                        "idealGas.terms",
                        $"cp/R = {value:G6} at {Text(t, "K")}",
                        $"{expected:G6} within 2 %",
                        "the ideal-gas part disagrees with the heat capacity of the substance.");
                    return;
                }
            }
        }

        // Single phases over the whole range, up to the melting line; where none is given, up to pressures at which no known fluid is solid yet.
        private void Stability()
        {
            IdealGasFunction gas = new(substance.Name, equation.IdealGas.HeatCapacity, equation.GasConstant);
            EquationRange range = equation.Range;
            for (int i = 0; i <= 24; i++)
            {
                double t = range.LowestTemperature * Math.Pow(range.HighestTemperature / range.LowestTemperature, i / 24.0);
                double reduced = t / equation.CriticalPoint.Temperature;
                double fluidUpTo = reduced switch { < 1.5 => 10, < 3 => 50, _ => double.PositiveInfinity } * equation.CriticalPoint.Pressure;
                if (equation.MeltingPressure is { } melting && t >= melting.LowestTemperature && t <= melting.HighestTemperature)
                {
                    fluidUpTo = melting.At(t);
                }

                double most = Math.Min(range.HighestPressure, fluidUpTo);

                for (int k = 0; k <= 40 && most > 1; k++)
                {
                    double p = Math.Pow(most, k / 40.0);
                    if (!IsStable(t, p, gas, out string what))
                    {
                        Report("stability", "densityTerms", $"{what} at {Text(t, "K")}, {Text(p, "Pa")}", "dp/drho, cv and the square of the speed of sound above zero", "a single phase of the stated range is unstable.");
                        return;
                    }
                }
            }
        }

        private bool IsStable(double t, double p, IdealGasFunction gas, out string what)
        {
            what = string.Empty;
            fluid.SetTemperature(t, scratch);
            double density;
            try
            {
                density = fluid.Density(t, p, DensityRoot.Stable, scratch, out _, out _);
            }
            catch (ArgumentOutOfRangeException)
            {
                what = "no density";
                return false;
            }

            ResidualProperties r = fluid.ResidualAtDensity(t, density, p);
            gas.Evaluate(t, out double cp, out _, out _);
            double isochoric = cp - equation.GasConstant + r.IsochoricHeatCapacity;
            double isobaric = cp + r.IsobaricHeatCapacity;
            if (!(r.PressureByVolume < 0))
            {
                what = $"dp/dv = {r.PressureByVolume:G4}";
            }
            else if (!(isochoric > 0))
            {
                what = $"cv = {isochoric:G4} J/(mol K)";
            }
            else if (!(isobaric / isochoric >= 1))
            {
                what = $"cp/cv = {isobaric / isochoric:G4}";
            }

            return what.Length == 0;
        }

        // The pass that computes all derivatives against differences of the values it computes.
        private void Derivatives()
        {
            Random random = new(1);
            for (int k = 0; k < 40; k++)
            {
                double t = equation.Range.LowestTemperature * Math.Pow(equation.Range.HighestTemperature / equation.Range.LowestTemperature, random.NextDouble());
                double rho = equation.Range.HighestMolarDensity * (0.02 + (0.9 * random.NextDouble()));
                ResidualDerivatives at = fluid.At(t, rho);
                double scale = 1 + Math.Abs(at.Alpha) + Math.Abs(at.ByDelta) + Math.Abs(at.ByTau) + Math.Abs(at.ByDeltaDelta) + Math.Abs(at.ByTauTau) + Math.Abs(at.ByTauDelta);
                double byLnDensity = Slope(h => fluid.At(t, rho * Math.Exp(h)).Alpha);
                double byLnTau = Slope(h => fluid.At(t * Math.Exp(-h), rho).Alpha);
                double second = Slope(h => fluid.At(t, rho * Math.Exp(h)).ByDelta) - byLnDensity;
                double mixed = Slope(h => fluid.At(t * Math.Exp(-h), rho).ByDelta);
                double secondTau = Slope(h => fluid.At(t * Math.Exp(-h), rho).ByTau) - byLnTau;
                double worst = Math.Max(
                    Math.Max(Math.Abs(byLnDensity - at.ByDelta), Math.Abs(byLnTau - at.ByTau)),
                    Math.Max(Math.Abs(second - at.ByDeltaDelta), Math.Max(Math.Abs(mixed - at.ByTauDelta), Math.Abs(secondTau - at.ByTauTau))));
                if (!(worst <= DerivativeTolerance * scale))
                {
                    Report("derivatives", "densityTerms", $"{worst / scale:G3} at {Text(t, "K")}, {Text(rho, "mol/m3")}", $"{DerivativeTolerance:G1} of their size", "derivatives and differences of the values disagree.");
                    return;
                }
            }

            // Sixth-order difference over the logarithm.
            static double Slope(Func<double, double> value)
            {
                const double H = 2e-3;
                return ((45 * (value(H) - value(-H))) - (9 * (value(2 * H) - value(-2 * H))) + value(3 * H) - value(-3 * H)) / (60 * H);
            }
        }
    }
}
