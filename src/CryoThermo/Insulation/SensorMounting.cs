using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// A thermometer tied to a tube: what it reads above the tube, by a network of resistances with the anchored wire as a fin (any textbook of heat transfer). Immutable and
/// thread-safe.
/// </summary>
/// <remarks>
/// The free warm run conducts with the mean conductivity between tube and warm place, the anchored and the last run with that at the temperature of the tube. Radiation
/// onto the wires is left out: with fine bare wires in a vacuum it adds to what they bring.
/// </remarks>
public sealed record SensorMounting
{
    private const double StefanBoltzmann = 5.670374419e-8;

    /// <summary>Describes the mounting.</summary>
    /// <param name="wires">Its wires.</param>
    /// <param name="contact">Resistance of an area between sensor and tube, 1e-8 to 1 m2 K/W: see <see cref="HeatTransfer.ContactResistance"/>.</param>
    /// <param name="contactArea">Of that contact, 0.01 mm2 to 100 cm2.</param>
    /// <param name="exposedArea">Of the sensor that sees warm surroundings, 0 to 100 cm2.</param>
    /// <param name="emissivity">Of the sensor, 1e-4 to 1.</param>
    /// <param name="selfHeating">Power of the measuring current, 0 to 1 W; none where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public SensorMounting(SensorWires wires, ThermalResistance contact, Area contactArea, Area exposedArea, double emissivity, Power? selfHeating = null)
    {
        ArgumentNullException.ThrowIfNull(wires);
        Guard.InRange(contact.SquareMeterKelvinsPerWatt, 1e-8, 1, "m2 K/W", nameof(contact));
        Guard.InRange(contactArea.SquareMeters, 1e-8, 1e-2, "m2", nameof(contactArea));
        Guard.InRange(exposedArea.SquareMeters, 0, 1e-2, "m2", nameof(exposedArea));
        Guard.InRange(emissivity, 1e-4, 1, "of black");
        Guard.InRange((double)(selfHeating?.Watts ?? 0), 0, 1, "W", nameof(selfHeating));
        Wires = wires;
        Contact = contact;
        ContactArea = contactArea;
        ExposedArea = exposedArea;
        Emissivity = emissivity;
        SelfHeating = selfHeating ?? Power.Zero;
    }

    /// <summary>Its wires.</summary>
    public SensorWires Wires { get; }

    /// <summary>Resistance of an area between sensor and tube.</summary>
    public ThermalResistance Contact { get; }

    /// <summary>Of that contact.</summary>
    public Area ContactArea { get; }

    /// <summary>Of the sensor that sees warm surroundings.</summary>
    public Area ExposedArea { get; }

    /// <summary>Of the sensor.</summary>
    public double Emissivity { get; }

    /// <summary>Power of the measuring current.</summary>
    public Power SelfHeating { get; }

    /// <summary>What it reads above the tube.</summary>
    /// <param name="tube">Temperature of the tube, within the range of the wires' metal.</param>
    /// <param name="warm">Temperature where the wires start, that of the tube to the highest of the wires' metal.</param>
    /// <param name="surroundings">Temperature of what the sensor sees, that of the tube to 1000 K; as warm as where the wires start where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public SensorError On(Temperature tube, Temperature warm, Temperature? surroundings = null)
    {
        double cold = tube.Kelvins;
        double room = Guard.InRange(warm.Kelvins, cold, 1000, "K", nameof(warm));
        double seen = Guard.InRange((surroundings ?? warm).Kelvins, cold, 1000, "K", nameof(surroundings));
        double here = Wires.Material.ConductivityAt(tube).WattsPerMeterKelvin;
        double mean = room - cold < 1e-9 ? here : Wires.Material.ConductivityIntegralWattsPerMeter(tube, warm) / (room - cold);
        double section = 0.25 * Math.PI * Math.Pow(Wires.Diameter.Meters, 2);
        double warmRun = Wires.WarmRun.Meters / (Wires.Count * mean * section);
        double freeRun = Wires.FreeRun.Meters / (Wires.Count * here * section);
        double g = Wires.AnchorConductanceWattsPerMeterKelvin;
        double decay = Math.Sqrt(here * section / g);
        double fin = 1 / (Wires.Count * Math.Sqrt(g * here * section));
        double length = Wires.Anchored.Meters / decay;
        double contact = Contact.SquareMeterKelvinsPerWatt / ContactArea.SquareMeters;

        // From the sensor back to the warm place, all over cosh of the anchor: theta_warm / cosh = a theta_sensor + b q.
        double tanh = Math.Tanh(length);
        double over = length > 300 ? 0 : 1 / Math.Cosh(length);
        double a = 1 + (warmRun * tanh / fin);
        double b = freeRun + (fin * tanh) + (warmRun * ((tanh * freeRun / fin) + 1));
        double sum = a + (b / contact);
        double resistance = b / sum;
        double byWires = (room - cold) * over / sum;
        double own = resistance * (double)SelfHeating.Watts;
        double radiating = Emissivity * StefanBoltzmann * ExposedArea.SquareMeters;

        // The sensor cannot come above the warmest of what heats it.
        double Radiated(double theta) => radiating * (Math.Pow(seen, 4) - Math.Pow(cold + theta, 4));
        double Miss(double theta) => byWires + own + (resistance * Radiated(theta)) - theta;
        double top = byWires + own + (resistance * Radiated(0)) + 1e-12;
        double theta = radiating > 0 ? BracketedRoot.Solve(Miss, 0, top, 1e-13) : byWires + own;
        double byRadiation = theta - byWires - own;

        // Seen from the start of the anchor: the impedance of fin, free run and contact, and the temperature that the heat at the sensor alone gives there.
        double load = freeRun + contact;
        double seenFromStart = fin * (load + (fin * tanh)) / (fin + (load * tanh));
        double open = over * (Radiated(theta) + (double)SelfHeating.Watts) * contact / (1 + (load * tanh / fin));
        double wireHeat = (room - cold - open) / (warmRun + seenFromStart);
        List<string> notes = [];
        if (length < 3)
        {
            notes.Add($"The anchor is {length:F1} decay lengths of {1e3 * decay:F1} mm; three to five are common practice (no source).");
        }

        return new(Delta(theta), Delta(byWires), Delta(byRadiation), Delta(own), Power.FromWatts(wireHeat), Length.FromMeters(decay), notes);
    }

    /// <summary>Length along the tube at which the error is at most that wanted; null where no length will do, since radiation, self-heating and contact alone exceed it.</summary>
    /// <param name="wanted">Above zero.</param>
    /// <param name="tube">As for <see cref="On"/>.</param>
    /// <param name="warm">As for <see cref="On"/>.</param>
    /// <param name="surroundings">As for <see cref="On"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public Length? AnchoringLength(TemperatureDelta wanted, Temperature tube, Temperature warm, Temperature? surroundings = null)
    {
        double goal = Guard.Positive(wanted.Kelvins, "K", nameof(wanted));
        double decay = On(tube, warm, surroundings).AnchorDecayLength.Meters;
        double longest = Math.Min(100, 60 * decay);
        if (Error(longest) > goal)
        {
            return null;
        }

        return Length.FromMeters(Error(0) <= goal ? 0 : BracketedRoot.Narrow(x => Error(x) - goal, 0, Error(0) - goal, longest, Error(longest) - goal, (p, q) => q - p <= 1e-9).High);

        double Error(double length) => With(length).On(tube, warm, surroundings).Total.Kelvins;
    }

    private static TemperatureDelta Delta(double kelvins) => TemperatureDelta.FromKelvins(kelvins);

    private SensorMounting With(double anchored) => new(Wires.WithAnchored(Length.FromMeters(anchored)), Contact, ContactArea, ExposedArea, Emissivity, SelfHeating);
}
