using System.Globalization;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A solved flow through a capillary. Immutable and thread-safe.</summary>
public sealed class CapillaryFlow : IThrottleFlow
{
    internal CapillaryFlow(Capillary capillary, State inlet, double outletPressure, double flow, List<TubePoint>[] courses, int? chokedSection, State? streamOutlet)
    {
        Capillary = capillary;
        Inlet = inlet;
        OutletPressure = Pressure.FromPascals(outletPressure);
        MassFlow = MassFlow.FromKilogramsPerSecond(flow);
        ChokedSection = chokedSection;
        StreamOutlet = streamOutlet;
        List<CapillaryPoint> profile = [];
        double before = 0;
        for (int i = 0; i < courses.Length; i++)
        {
            double flux = flow / capillary.Sections[i].Area;
            profile.AddRange(courses[i].Select(p => new CapillaryPoint(
                Length.FromMeters(before + p.Position),
                i,
                Pressure.FromPascals(p.Pressure),
                Temperature.FromKelvins(p.Temperature),
                p.VaporMassFraction,
                Speed.FromMetersPerSecond(flux * p.Volume))));
            before += capillary.Sections[i].Length.Meters;
        }

        Profile = profile;
        TubePoint end = courses[^1][^1];
        double molarMass = inlet.Fluid.Composition.MolarMass.KilogramsPerMole;
        double velocity = flow / capillary.Sections[^1].Area * end.Volume;
        double total = end.Enthalpy + (0.5 * velocity * velocity);
        Exit = inlet.Fluid.AtEnthalpy(Pressure.FromPascals(end.Pressure), MolarEnergy.FromJoulesPerMole(end.Enthalpy * molarMass));
        Outlet = inlet.Fluid.AtEnthalpy(OutletPressure, MolarEnergy.FromJoulesPerMole(total * molarMass));
        HeatTakenUp = Power.FromWatts(flow * (total - inlet.SpecificEnthalpy.JoulesPerKilogram));
    }

    /// <summary>The capillary.</summary>
    public Capillary Capillary { get; }

    /// <summary>The fluid at rest before it.</summary>
    public State Inlet { get; }

    /// <summary>Absolute pressure behind it.</summary>
    public Pressure OutletPressure { get; }

    /// <summary>Mass flow.</summary>
    public MassFlow MassFlow { get; }

    /// <summary>Whether a lower outlet pressure would bring no more flow.</summary>
    public bool IsChoked => ChokedSection is not null;

    /// <summary>The stretch at whose end the velocity is that of sound; null where the flow is not choked.</summary>
    public int? ChokedSection { get; }

    /// <summary>The fluid at the end of the capillary, still inside it: where it chokes above the outlet pressure.</summary>
    public State Exit { get; }

    /// <summary>The fluid behind it, come to rest at the outlet pressure.</summary>
    public State Outlet { get; }

    /// <summary>Heat taken up from a stream alongside; zero where there is none.</summary>
    public Power HeatTakenUp { get; }

    /// <summary>The stream alongside where it leaves; null where there is none.</summary>
    public State? StreamOutlet { get; }

    /// <summary>The course along the capillary.</summary>
    public IReadOnlyList<CapillaryPoint> Profile { get; }

    /// <summary>How far the stream is liquid; null where it enters with vapour or stays liquid to the end.</summary>
    public Length? LiquidLength
    {
        get
        {
            if (Profile[0].VaporMassFraction > 0 || Profile[^1].VaporMassFraction <= 0)
            {
                return null;
            }

            return Profile.First(p => p.VaporMassFraction > 0).Position;
        }
    }

    /// <summary>What the flow was computed by, and what that leaves out.</summary>
    public string Method =>
        $"one-dimensional, phases at one velocity and in equilibrium; friction by Churchill (1977), viscosity of two phases by {Capillary.TwoPhaseViscosity}; no delay of boiling (R-12: 1 to 3 % more liquid length, from memory)";

    /// <summary>The course as a table.</summary>
    public ResultTable ToTable()
    {
        const int Rows = 14;
        double length = Profile[^1].Position.Meters;
        List<CapillaryPoint> shown = [];
        for (int i = 0; i <= Rows; i++)
        {
            CapillaryPoint next = i == Rows ? Profile[^1] : Profile.MinBy(p => Math.Abs(p.Position.Meters - (length * i / Rows)))!;
            if (shown.Count == 0 || next.Position > shown[^1].Position)
            {
                shown.Add(next);
            }
        }

        string choke = IsChoked ? string.Create(CultureInfo.InvariantCulture, $"choked in stretch {ChokedSection + 1} at {Exit.Pressure.Bars:0.00} bar") : "not choked";
        return new(
            string.Create(CultureInfo.InvariantCulture, $"{MassFlow.GramsPerSecond:0.0000} g/s ({MassFlow.KilogramsPerHour:0.000} kg/h), {choke}"),
            ["position, m", "pressure, bar absolute", "temperature, K", "temperature, °C", "vapour, kg/kg", "velocity, m/s"],
            [.. shown.Select(p => (IReadOnlyList<string>)
            [
                Text($"{p.Position.Meters:0.000}"),
                Text($"{p.Pressure.Bars:0.000}"),
                Text($"{p.Temperature.Kelvins:0.00}"),
                Text($"{p.Temperature.DegreesCelsius:0.00}"),
                Text($"{p.VaporMassFraction:0.0000}"),
                Text($"{p.Velocity.MetersPerSecond:0.00}"),
            ])]);

        static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
