using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>What lies outside the stated range of the correlations a state was computed with.</summary>
internal static class StateNotes
{
    public static IReadOnlyList<RangeNote> Of(Composition composition, FluidAssembly assembly, EquilibriumResult result) =>
        assembly.Pedigree.Equation is { } equation
            ? OfEquation(composition.Components[0], equation, result)
            : assembly.Pedigree.ComponentEquations.Count > 0 ? OfMultiFluid(assembly.Pedigree.Model, result) : OfIdealGases(composition, assembly, result);

    // The extended range is told once, with the fluid; a component below its own range is normal in a mixture.
    private static List<RangeNote> OfMultiFluid(FluidModel model, EquilibriumResult result)
    {
        List<RangeNote> notes = [];
        string subject = model.Name;
        double t = result.Temperature;
        double p = result.Pressure;
        if (t < MultiFluidAssembly.ExtendedFrom)
        {
            notes.Add(new(subject, $"{t:G6} K is below the extended range of ISO 20765-2, which begins at {MultiFluidAssembly.ExtendedFrom:G6} K; the equations are continued."));
        }

        if (t > MultiFluidAssembly.ExtendedTo)
        {
            notes.Add(new(subject, $"{t:G6} K is above the extended range of ISO 20765-2, which ends at {MultiFluidAssembly.ExtendedTo:G6} K; the equations are continued."));
        }

        if (p > MultiFluidAssembly.ExtendedToPressure)
        {
            notes.Add(new(
                subject,
                $"{p / 1e5:G6} bar absolute is above the extended range of ISO 20765-2, which ends at {MultiFluidAssembly.ExtendedToPressure / 1e5:G6} bar; the equations are continued."));
        }

        return notes;
    }

    private static List<RangeNote> OfEquation(Substance substance, HelmholtzEquation equation, EquilibriumResult result)
    {
        List<RangeNote> notes = [];
        EquationRange range = equation.Range;
        string subject = $"equation of state of {substance.Name}";
        double t = result.Temperature;
        double p = result.Pressure;
        if (equation.TripleTemperature is { } triple && t < triple)
        {
            notes.Add(new(subject, $"{t:G6} K is below the triple point of {triple:G6} K: solids are not considered, the state is that of a fluid that has not frozen."));
        }
        else if (t < range.LowestTemperature)
        {
            notes.Add(new(subject, $"{t:G6} K is below the stated range, which begins at {range.LowestTemperature:G6} K."));
        }

        if (t > range.HighestTemperature)
        {
            notes.Add(new(subject, $"{t:G6} K is above the stated range, which ends at {range.HighestTemperature:G6} K; the equation is continued as it stands."));
        }

        if (p > range.HighestPressure)
        {
            notes.Add(new(subject, $"{p / 1e5:G6} bar absolute is above the stated range, which ends at {range.HighestPressure / 1e5:G6} bar; the equation is continued as it stands."));
        }

        if (equation.MeltingPressure is { } melting && t >= melting.LowestTemperature && t <= melting.HighestTemperature && p > melting.At(t))
        {
            notes.Add(new(
                subject,
                $"{p / 1e5:G6} bar absolute is above the melting pressure of {melting.At(t) / 1e5:G6} bar at {t:G6} K: solids are not considered, the state is that of a fluid that has not frozen."));
        }

        return notes;
    }

    private static List<RangeNote> OfIdealGases(Composition composition, FluidAssembly assembly, EquilibriumResult result)
    {
        List<RangeNote> notes = [];
        int count = composition.Components.Count;
        for (int i = 0; i < count; i++)
        {
            // Within a mixture a component below its own range is normal: its ideal-gas form is continued smoothly.
            if (composition.MoleFractions[i] > 0
                && (count == 1 || result.Temperature > composition.Components[i].IdealGasHeatCapacity.HighestTemperature)
                && assembly.IdealGas[i].NoteFor(result.Temperature) is { } note)
            {
                notes.Add(note);
            }
        }

        if (count == 1 && composition.Components[0].TripleTemperature is { } triple && result.Temperature < triple)
        {
            notes.Add(new(
                composition.Components[0].Name,
                $"{result.Temperature:G6} K is below the triple point of {triple:G6} K: solids are not considered, the state is that of a subcooled fluid."));
        }

        return notes;
    }
}
