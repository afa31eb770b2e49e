using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// Multilayer insulation of double-aluminised polyester with silk net: the layer-density form of Keller, Cunnington and Glassford for spacers and radiation.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The gas term of that publication, as recalled, is three times what kinetic theory allows; the gas here is kinetic theory: free molecules with full accommodation
/// in each gap, one gap more than there are layers, and never more than still gas over the whole blanket. Pressure is that between the layers: a blanket that
/// cannot breathe out keeps a hundred times what the gauge shows.
/// </remarks>
public sealed record MultilayerInsulation
{
    private static readonly Source Layers1 = new(
        "C. W. Keller, G. R. Cunnington, A. P. Glassford, NASA CR-134477 (1974)", FromMemory: true, Verified: "30 layers at 20 per cm from 300 to 77 K give 0.47 W/m2, within the 0.3 to 0.6 W/m2 of published calorimeters");

    private static readonly Source Gas1 = new("kinetic theory: E. H. Kennard; R. J. Corruccini, Vacuum 7-8 (1959) 19", FromMemory: true, Verified: "5.5e3 W/(m2 torr K^0.5) over the number of gaps for nitrogen");

    /// <summary>Describes a blanket.</summary>
    /// <param name="layers">Reflecting layers, 1 to 200.</param>
    /// <param name="layersPerCentimeter">Their density, 2 to 60 to the centimetre.</param>
    /// <param name="degradation">How many times more the blanket as wrapped passes than in a calorimeter, 1 to 20: <see cref="HandWrapped"/>, or a measured figure of one's own.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public MultilayerInsulation(int layers, double layersPerCentimeter, FigureBand<double> degradation)
    {
        ArgumentNullException.ThrowIfNull(degradation);
        Guard.InRange(layers, 1, 200, "layers");
        Guard.InRange(layersPerCentimeter, 2, 60, "layers to the centimetre");
        Guard.InRange(degradation.Least, 1, 20, "times", nameof(degradation));
        Guard.InRange(degradation.Nominal, degradation.Least, 20, "times", nameof(degradation));
        Guard.InRange(degradation.Greatest, degradation.Nominal, 20, "times", nameof(degradation));
        Layers = layers;
        LayersPerCentimeter = layersPerCentimeter;
        Degradation = degradation;
    }

    /// <summary>Small vessels with penetrations, wrapped by hand: 2 to 4 times a calorimeter, from memory; 3 is the middle.</summary>
    public static FigureBand<double> HandWrapped { get; } = new(3, 2, 4);

    /// <summary>As in a calorimeter: no penetrations, no seams.</summary>
    public static FigureBand<double> Calorimeter { get; } = new(1, 1, 1);

    /// <summary>Reflecting layers.</summary>
    public int Layers { get; }

    /// <summary>Their density.</summary>
    public double LayersPerCentimeter { get; }

    /// <summary>How many times more the blanket as wrapped passes.</summary>
    public FigureBand<double> Degradation { get; }

    /// <summary>Thickness of the blanket.</summary>
    public Length Thickness => Length.FromCentimeters(Layers / LayersPerCentimeter);

    /// <summary>Heat for each area, from warm to cold.</summary>
    /// <param name="cold">Temperature of its cold side, 4 to 300 K.</param>
    /// <param name="warm">Temperature of its warm side, that of the cold side to 330 K.</param>
    /// <param name="gas">What is left between the layers; none where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public MultilayerResult Between(Temperature cold, Temperature warm, ResidualGas? gas = null)
    {
        double c = Guard.InRange(cold.Kelvins, 4, 300, "K", nameof(cold));
        double h = Guard.InRange(warm.Kelvins, c, 330, "K", nameof(warm));
        const double Emissivity = 0.031; // of the layers, at 300 K, as in the publication
        double solid = 8.95e-8 * Math.Pow(LayersPerCentimeter, 2.56) * 0.5 * (c + h) * (h - c) / (Layers + 1);
        double radiation = 5.39e-10 * Emissivity * (Math.Pow(h, 4.67) - Math.Pow(c, 4.67)) / Layers;
        double conducted = 0;
        List<string> notes = [];
        if (gas is not null)
        {
            DiluteGas dilute = DiluteGas.Between(gas.Gas, c, h);

            // Each gap takes (gamma+1)/(gamma-1) sqrt(R/(8 pi M T)) p dT at its own temperature; in series that is the integral over the number of gaps.
            double molecular = ((2 * dilute.HeatCapacity / SubstanceReader.GasConstant) - 1) * Math.Sqrt(SubstanceReader.GasConstant / (8 * Math.PI * dilute.MolarMass))
                * gas.Pressure.Pascals * 2 * (Math.Sqrt(h) - Math.Sqrt(c)) / (Layers + 1);
            double continuum = dilute.Conductivity * (h - c) / Thickness.Meters;
            conducted = molecular + continuum > 0 ? molecular * continuum / (molecular + continuum) : 0;
            if (gas.Pressure.Pascals > 0.01)
            {
                notes.Add($"{gas.Pressure.Pascals:G3} Pa between the layers: below about 0.01 Pa is needed for the blanket to be worth its trouble (from memory).");
            }
        }

        if (LayersPerCentimeter is < 10 or > 30)
        {
            notes.Add($"{LayersPerCentimeter:G3} layers to the centimetre: the form was checked here for 10 to 30.");
        }

        double calm = solid + radiation;
        return new(
            new(Flux((Degradation.Nominal * calm) + conducted), Flux((Degradation.Least * calm) + conducted), Flux((Degradation.Greatest * calm) + conducted)),
            Flux(solid),
            Flux(radiation),
            Flux(conducted),
            gas is null ? [Layers1] : [Layers1, Gas1],
            notes);
    }

    private static HeatFlux Flux(double value) => HeatFlux.FromWattsPerSquareMeter(value);
}
