using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Transport;

/// <summary>Tells how a figure of <see cref="TransportKernel"/> came about, how sure it is, and what lies outside of its range.</summary>
internal static class TransportMethods
{
    /// <summary>Reduced density up to which the uncertainty of the dilute gas is told; common practice, no source.</summary>
    public const double DiluteUpTo = 0.1;

    /// <summary>Ends of the fit of the corresponding-states coefficients.</summary>
    public const double HighestFittedTemperature = 400;
    public const double HighestFittedReducedDensity = 3.2;

    // Own estimates for mixtures of fluids with coefficients: gas by the mixing rules, dense by the comparison with measured mixtures.
    private const double MixtureGasViscosityPercent = 3;
    private const double MixtureGasConductivityPercent = 5;
    private const double MixtureDenseViscosityPercent = 10;
    private const double MixtureDenseConductivityPercent = 8;

    private const string States = "corresponding states with nitrogen";

    /// <summary>The method of the viscosity or the conductivity.</summary>
    public static TransportMethod Of(TransportKernel kernel, bool isViscosity, double temperature, double molarDensity, ReadOnlySpan<double> x)
    {
        bool isDilute = kernel.ReducedDensity(molarDensity, x) < DiluteUpTo;
        return TransportKernel.Only(x) is >= 0 and int only
            ? OfPure(kernel.Components[only], isViscosity, isDilute, temperature)
            : OfMixture(kernel, isViscosity, isDilute, x);
    }

    /// <summary>What lies outside the stated ranges; empty when nothing does.</summary>
    public static IReadOnlyList<RangeNote> Notes(TransportKernel kernel, double temperature, double pressure, double molarDensity, ReadOnlySpan<double> x)
    {
        List<RangeNote> notes = [];
        double reduced = kernel.ReducedDensity(molarDensity, x);
        bool byStates = true;
        if (TransportKernel.Only(x) is >= 0 and int only)
        {
            TransportComponent component = kernel.Components[only];
            byStates = component.DenseViscosity is null || component.DenseConductivity is null;
            Add(notes, $"viscosity of {component.Name}", component.DenseViscosity, component.DiluteViscosityMarks, temperature, pressure, reduced);
            Add(notes, $"thermal conductivity of {component.Name}", component.DenseConductivity, component.DiluteConductivityMarks, temperature, pressure, reduced);
        }
        else if (temperature > HighestFittedTemperature)
        {
            notes.Add(new(States, $"{temperature:G6} K is above the temperatures its coefficients were fitted to, which end at {HighestFittedTemperature:G6} K."));
        }

        if (byStates && reduced > HighestFittedReducedDensity)
        {
            string held = reduced > CorrespondingStates.HighestReducedDensity ? $", and the volume ratios are held from {CorrespondingStates.HighestReducedDensity} on." : ".";
            notes.Add(new(
                States, $"{molarDensity:G6} mol/m3 is {reduced:F2} times the critical density; its coefficients were fitted up to {HighestFittedReducedDensity}{held}"));
        }

        return notes;
    }

    private static void Add(
        List<RangeNote> notes, string subject, TransportCorrelation? dense, TransportCorrelation? dilute, double temperature, double pressure, double reducedDensity)
    {
        // The range of a dilute gas says nothing about a liquid, which follows corresponding states.
        if ((dense ?? (reducedDensity < DiluteUpTo ? dilute : null)) is not { } range)
        {
            return;
        }

        string continued = dense is null ? "kinetic theory continues it." : "corresponding states continue it.";
        if (temperature < range.LowestTemperature)
        {
            notes.Add(new(subject, $"{temperature:G6} K is below the range of the correlation, which begins at {range.LowestTemperature:G6} K; {continued}"));
        }

        if (temperature > range.HighestTemperature)
        {
            notes.Add(new(subject, $"{temperature:G6} K is above the range of the correlation, which ends at {range.HighestTemperature:G6} K; {continued}"));
        }

        if (pressure > range.HighestPressure)
        {
            notes.Add(new(
                subject,
                $"{pressure / 1e5:G6} bar absolute is above the range of the correlation, which ends at {range.HighestPressure / 1e5:G6} bar; it is continued as it stands."));
        }
    }

    private static TransportMethod OfPure(TransportComponent component, bool isViscosity, bool isDilute, double temperature)
    {
        TransportCorrelation? dense = isViscosity ? component.DenseViscosity : component.DenseConductivity;
        TransportCorrelation? dilute = isViscosity ? component.DiluteViscosityMarks : component.DiluteConductivityMarks;
        double statesPercent = isViscosity ? component.Coefficients.ViscosityUncertaintyPercent : component.Coefficients.ConductivityUncertaintyPercent;
        double dilutePercent = isViscosity ? component.DiluteViscosityPercent : component.DiluteConductivityPercent;
        if (dense is null)
        {
            string gas = dilute?.Provenance.Source.Publication ?? "T.-H. Chung et al., Ind. Eng. Chem. Res. 27 (1988) 671, without dipole";
            string coefficients = component.IsEstimated ? "typical coefficients, estimated" : component.Coefficients.Provenance.Source.Publication;
            return new($"dilute gas: {gas}; dense: {States} ({coefficients})", isDilute ? dilutePercent : Math.Max(dilutePercent, statesPercent), component.IsEstimated);
        }

        bool isInside = temperature >= dense.LowestTemperature && temperature <= dense.HighestTemperature;
        double percent = isDilute ? dilutePercent : Math.Max(dilutePercent, dense.UncertaintyPercent);
        return isInside
            ? new(dense.Provenance.Source.Publication, percent, false)
            : new($"{dense.Provenance.Source.Publication}, beyond its range continued by {States}", percent + statesPercent, component.IsEstimated);
    }

    private static TransportMethod OfMixture(TransportKernel kernel, bool isViscosity, bool isDilute, ReadOnlySpan<double> x)
    {
        double percent = 0;
        List<string> estimated = [];
        for (int i = 0; i < x.Length; i++)
        {
            if (x[i] <= 0)
            {
                continue;
            }

            TransportComponent component = kernel.Components[i];
            double own = isViscosity ? component.DiluteViscosityPercent : component.DiluteConductivityPercent;
            double states = isViscosity ? component.Coefficients.ViscosityUncertaintyPercent : component.Coefficients.ConductivityUncertaintyPercent;
            percent += x[i] * (isDilute ? own : states);
            if (component.IsEstimated)
            {
                estimated.Add(component.Name);
            }
        }

        double least = isViscosity
            ? (isDilute ? MixtureGasViscosityPercent : MixtureDenseViscosityPercent)
            : (isDilute ? MixtureGasConductivityPercent : MixtureDenseConductivityPercent);
        string rule = isViscosity ? "C. R. Wilke, J. Chem. Phys. 18 (1950) 517" : "E. A. Mason, S. C. Saxena, Phys. Fluids 1 (1958) 361";
        string tail = estimated.Count == 0 ? string.Empty : $"; typical coefficients, estimated, for {string.Join(", ", estimated)}";
        return new($"dilute gases joined by {rule}; dense: {States} with coefficients fitted to each component{tail}", Math.Max(least, percent), estimated.Count > 0);
    }
}
