using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>A cold body under porous insulation. Immutable and thread-safe.</summary>
public sealed record InsulatedSurface
{
    /// <summary>Describes the surface.</summary>
    /// <param name="body">The cold body.</param>
    /// <param name="insulation">What covers it.</param>
    /// <param name="thickness">0.1 mm to the greatest the body's form holds for.</param>
    /// <param name="pressure">Of the gas in the pores, absolute; 1 atm where left out.</param>
    /// <param name="gas">That gas; air where left out.</param>
    /// <param name="outsideCoefficient">
    /// Of convection and radiation at the outside, 0.1 to 1000 W/(m2 K); left out, the outside is as warm as the room, which never tells too little heat. About 8 in a still
    /// room (common practice, no source).
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public InsulatedSurface(
        InsulatedBody body, PorousInsulation insulation, Length thickness, Pressure? pressure = null, WorkingFluid? gas = null, HeatTransferCoefficient? outsideCoefficient = null)
    {
        ArgumentNullException.ThrowIfNull(body);
        ArgumentNullException.ThrowIfNull(insulation);
        Guard.InRange(thickness.Meters, 1e-4, body.GreatestThickness.Meters, "m", nameof(thickness));
        if (outsideCoefficient is { } given)
        {
            Guard.InRange(given.WattsPerSquareMeterKelvin, 0.1, 1000, "W/(m2 K)", nameof(outsideCoefficient));
        }

        Body = body;
        Insulation = insulation;
        Thickness = thickness;
        Pressure = pressure ?? Pressure.FromAtmospheres(1);
        Gas = gas;
        OutsideCoefficient = outsideCoefficient;
    }

    /// <summary>The cold body.</summary>
    public InsulatedBody Body { get; }

    /// <summary>What covers it.</summary>
    public PorousInsulation Insulation { get; }

    /// <summary>How thick.</summary>
    public Length Thickness { get; }

    /// <summary>Of the gas in the pores, absolute.</summary>
    public Pressure Pressure { get; }

    /// <summary>That gas; null for air.</summary>
    public WorkingFluid? Gas { get; }

    /// <summary>Of convection and radiation at the outside; null where the outside is as warm as the room.</summary>
    public HeatTransferCoefficient? OutsideCoefficient { get; }

    /// <summary>Heat from the room into the body.</summary>
    /// <param name="cold">Temperature of the body, within the range of the insulation.</param>
    /// <param name="room">Temperature of the room, that of the body to the highest of the insulation.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside of what is known: there is no figure.</exception>
    public FigureBand<Power> Heat(Temperature cold, Temperature room)
    {
        FigureBand<(double Heat, double Outside)> all = Solve(cold, room);
        return new(Power.FromWatts(all.Nominal.Heat), Power.FromWatts(all.Least.Heat), Power.FromWatts(all.Greatest.Heat));
    }

    /// <summary>Temperature of the outside, coldest as the greatest conductivity makes it: below the dew point it sweats.</summary>
    /// <param name="cold">As for <see cref="Heat"/>.</param>
    /// <param name="room">As for <see cref="Heat"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside of what is known: there is no figure.</exception>
    public FigureBand<Temperature> Outside(Temperature cold, Temperature room)
    {
        FigureBand<(double Heat, double Outside)> all = Solve(cold, room);
        return new(Temperature.FromKelvins(all.Nominal.Outside), Temperature.FromKelvins(all.Greatest.Outside), Temperature.FromKelvins(all.Least.Outside));
    }

    /// <summary>
    /// Outer radius below which more insulation lets in more heat: conductivity over the coefficient of the outside, of a sphere twice that. Null where
    /// the body is flat or no coefficient is given.
    /// </summary>
    /// <param name="cold">As for <see cref="Heat"/>.</param>
    /// <param name="room">As for <see cref="Heat"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside of what is known: there is no figure.</exception>
    public Length? CriticalRadius(Temperature cold, Temperature room) => Body.IsCurved && OutsideCoefficient is { } coefficient
        ? Length.FromMeters((Body.IsSphere ? 2 : 1) * Insulation.MeanConductivity(cold, room, Pressure, Gas).Nominal.WattsPerMeterKelvin / coefficient.WattsPerSquareMeterKelvin)
        : null;

    private FigureBand<(double Heat, double Outside)> Solve(Temperature cold, Temperature room)
    {
        double c = Insulation.Check(cold, nameof(cold));
        double r = Insulation.Check(room, nameof(room));
        Guard.InRange(r, c, 1000, "K", nameof(room));
        double x = Thickness.Meters;
        double p = Pressure.Pascals;
        double shape = Body.Shape(x);
        (double Heat, double Outside) One(Func<FigureBand<double>, double> pick)
        {
            double Through(double outside) => shape * pick(Insulation.Mean(c, outside, p, Gas)) * (outside - c);
            if (OutsideCoefficient is not { } given || r - c < 1e-9)
            {
                return (Through(r), r);
            }

            double h = given.WattsPerSquareMeterKelvin * Body.OuterArea(x);
            double outside = BracketedRoot.Solve(t => Through(t) - (h * (r - t)), c, r, 1e-12);
            return (Through(outside), outside);
        }

        return new(One(b => b.Nominal), One(b => b.Least), One(b => b.Greatest));
    }
}
