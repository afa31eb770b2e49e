using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// Pressure gradients of liquid and vapour flowing together along a smooth round bore, by friction alone: what speeds the flow up as it boils is the caller's.
/// To see how far the correlations differ; a passage of a given shape is computed by CryoThermo.HeatTransfer.FlowPassage.
/// </summary>
public static class TwoPhaseFriction
{
    private const double MuellerSteinhagenBlasius = 0.3164;
    private const double ChisholmBlasius = 0.316;
    private const double LaminarUpTo = 1187;
    private const double FriedelLaminarUpTo = 1055;

    /// <summary>The gradient of a state of one or two phases, Pa/m, positive. Two liquids are taken as one.</summary>
    /// <param name="state">What flows.</param>
    /// <param name="flux">Mass flow over cross-section, above zero.</param>
    /// <param name="diameter">Bore, above zero.</param>
    /// <param name="model">The correlation.</param>
    /// <param name="viscosity">Rule for the viscosity, read by the homogeneous model alone.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the correlation needs a surface tension that vanishes at the critical point.</exception>
    /// <exception cref="ModelRangeException">The state lies outside the range of a correlation of its viscosity and the fluid is strict about it.</exception>
    public static double PascalsPerMeter(State state, MassFlux flux, Length diameter, TwoPhaseFrictionModel model, TwoPhaseViscosity viscosity = TwoPhaseViscosity.McAdams)
    {
        ArgumentNullException.ThrowIfNull(state);
        double g = Guard.Positive(flux.KilogramsPerSecondPerSquareMeter, "kg/(s m2)", nameof(flux));
        double d = Guard.Positive(diameter.Meters, "m", nameof(diameter));
        TwoPhaseStream stream = TwoPhaseStream.Of(state);
        if (model == TwoPhaseFrictionModel.Friedel && stream.Quality is > 0 and < 1 && !(stream.SurfaceTension > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(state), stream.SurfaceTension, $"state has a surface tension of {stream.SurfaceTension:G6} N/m; Friedel's correlation needs one above zero.");
        }

        return model switch
        {
            TwoPhaseFrictionModel.MuellerSteinhagenHeck => MuellerSteinhagenHeck(stream, g, d),
            TwoPhaseFrictionModel.Friedel => Friedel(stream, g, d),
            TwoPhaseFrictionModel.LockhartMartinelli => LockhartMartinelli(stream, g, d),
            TwoPhaseFrictionModel.Homogeneous => Homogeneous(stream, g, d, viscosity),
            _ => throw new ArgumentOutOfRangeException(
                nameof(model), model, $"model is {model}; it must be one of {string.Join(", ", Enum.GetNames<TwoPhaseFrictionModel>())}."),
        };
    }

    /// <summary>[A + 2 (B - A) x] (1 - x)^(1/3) + B x^3 with the gradients A and B of the whole flow as liquid and as vapour.</summary>
    internal static double MuellerSteinhagenHeck(in TwoPhaseStream p, double flux, double diameter) => p.Quality switch
    {
        0 => AsLiquid(p, flux, diameter),
        1 => AsVapor(p, flux, diameter),
        _ => MuellerSteinhagenHeck(AsLiquid(p, flux, diameter), AsVapor(p, flux, diameter), p.Quality),
    };

    /// <summary>
    /// The same from the gradients at both ends. Where the liquid alone has more friction than the vapour alone, as a very viscous liquid in laminar flow, the published form
    /// turns negative at high quality; its liquid term is left out beyond half then, which is chosen here and continuous.
    /// </summary>
    internal static double MuellerSteinhagenHeck(double liquid, double vapor, double quality)
    {
        double root = Math.Cbrt(1 - quality);
        double share = 1 - (2 * quality);
        return (vapor * ((2 * quality * root) + (quality * quality * quality))) + (liquid > vapor
            ? (vapor * share * root) + ((liquid - vapor) * Math.Max(0, share) * root)
            : liquid * share * root);
    }

    internal static double Friedel(in TwoPhaseStream p, double flux, double diameter)
    {
        double x = p.Quality;
        if (x is 0 or 1)
        {
            (double viscosity, double density) = x == 0 ? (p.LiquidViscosity, p.LiquidDensity) : (p.VaporViscosity, p.VaporDensity);
            return Gradient(FriedelFactor(flux * diameter / viscosity), flux, density, diameter);
        }

        double fLiquid = FriedelFactor(flux * diameter / p.LiquidViscosity);
        double fVapor = FriedelFactor(flux * diameter / p.VaporViscosity);
        double mixed = p.HomogeneousDensity;
        double e = ((1 - x) * (1 - x)) + (x * x * p.LiquidDensity * fVapor / (p.VaporDensity * fLiquid));
        double f = Math.Pow(x, 0.78) * Math.Pow(1 - x, 0.224);
        double ratio = p.VaporViscosity / p.LiquidViscosity;
        double h = Math.Pow(p.LiquidDensity / p.VaporDensity, 0.91) * Math.Pow(ratio, 0.19) * Math.Pow(Math.Max(0, 1 - ratio), 0.7);
        double froude = flux * flux / (TwoPhaseStream.Gravity * diameter * mixed * mixed);
        double weber = flux * flux * diameter / (mixed * p.SurfaceTension);
        return (e + (3.24 * f * h / (Math.Pow(froude, 0.045) * Math.Pow(weber, 0.035)))) * Gradient(fLiquid, flux, p.LiquidDensity, diameter);
    }

    /// <summary>dp = dpL + C sqrt(dpL dpG) + dpG, which is phi_L^2 = 1 + C/X + 1/X^2 without its poles; C is 20, 12, 10 or 5.</summary>
    internal static double LockhartMartinelli(in TwoPhaseStream p, double flux, double diameter)
    {
        double x = p.Quality;
        if (x == 0)
        {
            return Alone(flux, p.LiquidViscosity, p.LiquidDensity, diameter, out _);
        }

        double vapor = Alone(x * flux, p.VaporViscosity, p.VaporDensity, diameter, out bool isVaporTurbulent);
        if (x == 1)
        {
            return vapor;
        }

        double liquid = Alone((1 - x) * flux, p.LiquidViscosity, p.LiquidDensity, diameter, out bool isLiquidTurbulent);
        double constant = (isLiquidTurbulent, isVaporTurbulent) switch { (true, true) => 20, (false, true) => 12, (true, false) => 10, _ => 5 };
        return liquid + (constant * Math.Sqrt(liquid * vapor)) + vapor;
    }

    internal static double Homogeneous(in TwoPhaseStream p, double flux, double diameter, TwoPhaseViscosity rule)
    {
        (double viscosity, double density) = p.Quality switch
        {
            0 => (p.LiquidViscosity, p.LiquidDensity),
            1 => (p.VaporViscosity, p.VaporDensity),
            _ => (p.HomogeneousViscosity(rule), p.HomogeneousDensity),
        };
        return Gradient(FrictionFactor.ChurchillUnchecked(flux * diameter / viscosity, 0), flux, density, diameter);
    }

    private static double AsLiquid(in TwoPhaseStream p, double flux, double diameter) => Whole(flux, p.LiquidViscosity, p.LiquidDensity, diameter);

    private static double AsVapor(in TwoPhaseStream p, double flux, double diameter) => Whole(flux, p.VaporViscosity, p.VaporDensity, diameter);

    private static double Whole(double flux, double viscosity, double density, double diameter)
    {
        double reynolds = flux * diameter / viscosity;
        return Gradient(reynolds <= LaminarUpTo ? 64 / reynolds : MuellerSteinhagenBlasius * Math.Pow(reynolds, -0.25), flux, density, diameter);
    }

    private static double Alone(double flux, double viscosity, double density, double diameter, out bool isTurbulent)
    {
        double reynolds = flux * diameter / viscosity;
        isTurbulent = reynolds > LaminarUpTo;
        return Gradient(isTurbulent ? ChisholmBlasius * Math.Pow(reynolds, -0.25) : 64 / reynolds, flux, density, diameter);
    }

    private static double FriedelFactor(double reynolds)
    {
        double log = Math.Log(reynolds);
        return reynolds < FriedelLaminarUpTo ? 64 / reynolds : Math.Pow(0.86859 * Math.Log(reynolds / ((1.964 * log) - 3.8215)), -2);
    }

    private static double Gradient(double factor, double flux, double density, double diameter) => factor * flux * flux / (2 * density * diameter);
}
