using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// A capillary that brings oil from the separator behind the compressor back to the suction side, always open or opened for a share of the time
/// by a valve. While there is oil before it, it passes oil; for the rest of the time it passes gas, which the throttle lacks. Immutable and
/// thread-safe.
/// </summary>
/// <remarks>Oil and gas pass in turn, and gas dissolved in the oil is left out: common practice, no source.</remarks>
public sealed record OilReturn
{
    private readonly double density;
    private readonly double viscosity;

    /// <summary>Describes the return.</summary>
    /// <param name="line">The capillary.</param>
    /// <param name="oilDensity">Density of the oil, 500 to 1500 kg/m3.</param>
    /// <param name="oilViscosity">Viscosity of the oil at the temperature of the line, 0.1 mPa s to 10 Pa s: dissolved gas lowers it several times.</param>
    /// <param name="openShare">Share of the time for which the line is open, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public OilReturn(Capillary line, Density oilDensity, DynamicViscosity oilViscosity, double openShare = 1)
    {
        ArgumentNullException.ThrowIfNull(line);
        Line = line;
        density = Guard.InRange(oilDensity.KilogramsPerCubicMeter, 500, 1500, "kg/m3", nameof(oilDensity));
        viscosity = Guard.InRange(oilViscosity.PascalSeconds, 1e-4, 10, "Pa s", nameof(oilViscosity));
        OpenShare = Guard.InRange(openShare, 1e-4, 1, "of the time");
    }

    /// <summary>The capillary.</summary>
    public Capillary Line { get; }

    /// <summary>Density of the oil.</summary>
    public Density OilDensity => Density.FromKilogramsPerCubicMeter(density);

    /// <summary>Viscosity of the oil.</summary>
    public DynamicViscosity OilViscosity => DynamicViscosity.FromPascalSeconds(viscosity);

    /// <summary>Share of the time for which the line is open.</summary>
    public double OpenShare { get; }

    /// <summary>What it brings back and what it costs.</summary>
    /// <param name="separator">The gas in the oil separator.</param>
    /// <param name="suctionPressure">Absolute.</param>
    /// <param name="delivered">Mass flow of gas that the compressor delivers.</param>
    /// <param name="oil">Mass flow of oil that comes to the separator.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public OilReturnResult Evaluate(State separator, Pressure suctionPressure, MassFlow delivered, MassFlow oil)
    {
        Guard.Positive(delivered.KilogramsPerSecond, "kg/s", nameof(delivered));
        double arriving = Guard.InRange(oil.KilogramsPerSecond, 0, delivered.KilogramsPerSecond, "kg/s", nameof(oil));
        CapillaryFlow gas = Line.FlowTo(separator, suctionPressure);
        double full = OilFlow(Line, (separator.Pressure - suctionPressure).Pascals);
        double oilTime = Math.Min(OpenShare, arriving / full);
        return new(
            this,
            gas,
            MassFlow.FromKilogramsPerSecond(full * OpenShare),
            arriving > full * OpenShare,
            oilTime,
            MassFlow.FromKilogramsPerSecond((OpenShare - oilTime) * gas.MassFlow.KilogramsPerSecond),
            (OpenShare - oilTime) * (gas.MassFlow / delivered));
    }

    /// <summary>The same with the least bore that brings back a flow of oil with a margin.</summary>
    /// <param name="pressureDrop">Between separator and suction side.</param>
    /// <param name="oil">Mass flow of oil.</param>
    /// <param name="margin">How many times the flow of oil the line is to pass, 1 to 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the bore would be outside 0.05 to 20 mm.</exception>
    public OilReturn WithBoreFor(Pressure pressureDrop, MassFlow oil, double margin = 2)
    {
        double drop = Guard.Positive(pressureDrop.Pascals, "Pa", nameof(pressureDrop));
        double wanted = Guard.Positive(oil.KilogramsPerSecond, "kg/s", nameof(oil)) * Guard.InRange(margin, 1, 100, string.Empty) / OpenShare;
        double low = 5e-5;
        double high = 0.02;
        if (OilFlow(Line.WithBore(high), drop) < wanted || OilFlow(Line.WithBore(low), drop) > wanted)
        {
            throw new ArgumentOutOfRangeException(
                nameof(oil), wanted, $"oil is {oil.KilogramsPerSecond * 1e3:G6} g/s; {Line.Length.Meters:G4} m would need a bore outside {low * 1e3} to {high * 1e3} mm.");
        }

        for (int i = 0; i < 100 && high - low > 1e-12; i++)
        {
            double middle = Math.Sqrt(low * high);
            (low, high) = OilFlow(Line.WithBore(middle), drop) < wanted ? (middle, high) : (low, middle);
        }

        return new(Line.WithBore(high), OilDensity, OilViscosity, OpenShare);
    }

    // Constant density: entrance, friction and velocity head of each stretch.
    private double OilFlow(Capillary line, double drop)
    {
        double low = 0;
        double high = line.Sections.Min(s => s.Area) * Math.Sqrt(2 * density * drop);
        for (int i = 0; i < 100 && high - low > 1e-13 * high; i++)
        {
            double flow = 0.5 * (low + high);
            double needed = 0;
            for (int s = 0; s < line.Sections.Count; s++)
            {
                CapillarySection section = line.Sections[s];
                double flux = flow / section.Area;
                double friction = FrictionFactor.ChurchillUnchecked(flux * section.Diameter / viscosity, section.Roughness.Meters / section.Diameter);
                double heads = (friction * section.Length.Meters / section.Diameter) + 1 + (s == 0 ? line.EntranceLoss : 0);
                needed += heads * flux * flux / (2 * density);
            }

            (low, high) = needed < drop ? (flow, high) : (low, flow);
        }

        return low;
    }
}
