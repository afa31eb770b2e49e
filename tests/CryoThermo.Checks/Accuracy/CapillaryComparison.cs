using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>
/// Capillaries against the dimensionless correlation of D. A. Wolf, R. R. Bittle, M. B. Pate, ASHRAE RP-762 (1995), as in the ASHRAE
/// Refrigeration Handbook; exponents from memory. It was fitted to refrigerants near 40 to 55 degC: an order check only.
/// </summary>
/// <param name="Fluid">The refrigerant.</param>
/// <param name="BoreMillimeters">mm.</param>
/// <param name="LengthMeters">m.</param>
/// <param name="CondensingCelsius">Boiling temperature at the inlet pressure, degC.</param>
/// <param name="Subcooling">K; zero or less for a two-phase inlet.</param>
/// <param name="Quality">Vapour mass fraction at the inlet where it is not subcooled.</param>
internal sealed record CapillaryComparison(string Fluid, double BoreMillimeters, double LengthMeters, double CondensingCelsius, double Subcooling, double Quality)
{
    private const double BackBars = 0.5;

    /// <summary>The cases: over the range of the correlation.</summary>
    public static IReadOnlyList<CapillaryComparison> All { get; } =
    [
        .. from fluid in (string[])["R-134a", "isobutane"]
        from tube in ((double Bore, double Length)[])[(0.66, 3), (0.77, 2), (1, 4), (1.5, 2)]
        from celsius in (double[])[40, 55]
        from inlet in ((double Subcooling, double Quality)[])[(3, 0), (10, 0), (0, 0.05)]
        select new CapillaryComparison(fluid, tube.Bore, tube.Length, celsius, inlet.Subcooling, inlet.Quality),
    ];

    /// <summary>Mass flow by the library, kg/h.</summary>
    /// <param name="rule">Viscosity of two phases.</param>
    public double Computed(TwoPhaseViscosity rule)
    {
        Saturation saturation = WorkingFluid.Pure(Fluid).Saturation(Temperature.FromDegreesCelsius(CondensingCelsius));
        WorkingFluid fluid = WorkingFluid.Pure(Fluid);
        State inlet = Subcooling > 0
            ? fluid.At(Temperature.FromDegreesCelsius(CondensingCelsius - Subcooling), saturation.Pressure)
            : fluid.AtEnthalpy(saturation.Pressure, saturation.Liquid.MolarEnthalpy + (Quality * (saturation.Vapor.MolarEnthalpy - saturation.Liquid.MolarEnthalpy)));
        Capillary capillary = new([new(Length.FromMillimeters(BoreMillimeters), Length.FromMeters(LengthMeters), Length.FromMicrometers(0.5))], twoPhaseViscosity: rule);
        return capillary.FlowTo(inlet, Pressure.FromBars(BackBars)).MassFlow.KilogramsPerHour;
    }

    /// <summary>Mass flow by the correlation, kg/h, with the properties of saturation at the inlet temperature.</summary>
    public double Correlated()
    {
        WorkingFluid fluid = WorkingFluid.Pure(Fluid);
        Temperature inlet = Temperature.FromDegreesCelsius(CondensingCelsius - Math.Max(0, Subcooling));
        Saturation saturation = fluid.Saturation(inlet);
        double pressure = fluid.Saturation(Temperature.FromDegreesCelsius(CondensingCelsius)).Pressure.Pascals;
        double molarMass = fluid.Composition.MolarMass.KilogramsPerMole;
        double d = BoreMillimeters * 1e-3;
        double vf = 1 / saturation.Liquid.Density.KilogramsPerCubicMeter;
        double vg = 1 / saturation.Vapor.Density.KilogramsPerCubicMeter;
        double muf = saturation.Liquid.Transport.Viscosity.PascalSeconds;
        double mug = saturation.Vapor.Transport.Viscosity.PascalSeconds;
        double hfg = (saturation.Vapor.MolarEnthalpy - saturation.Liquid.MolarEnthalpy).JoulesPerMole / molarMass;
        double cpf = saturation.Liquid.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin / molarMass;
        double scale = d * d / (vf * vf * muf * muf);
        double length = LengthMeters / d;
        double latent = scale * hfg;
        double head = d * d * pressure / (vf * muf * muf);
        double swell = vg / vf;
        double viscosities = (muf - mug) / mug;
        double group = Subcooling > 0
            ? 1.8925 * Math.Pow(length, -0.484) * Math.Pow(latent, -0.824) * Math.Pow(head, 1.369) * Math.Pow(scale * cpf * Subcooling, 0.0187)
                * Math.Pow(swell, 0.773) * Math.Pow(viscosities, 0.265)
            : 187.27 * Math.Pow(length, -0.635) * Math.Pow(latent, -0.189) * Math.Pow(head, 0.645) * Math.Pow(Quality, -0.163) * Math.Pow(swell, -0.213)
                * Math.Pow(viscosities, -0.483);
        return 3600 * group * d * muf;
    }
}
