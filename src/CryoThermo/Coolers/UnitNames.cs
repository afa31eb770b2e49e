using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>The units in which one kind of quantity may be written in a cooler file. Names are case-sensitive: mPa is not MPa.</summary>
internal sealed class UnitNames<T>(string kind, string baseUnit, Func<T, double> toBase, Dictionary<string, Func<double, T>> units)
{
    /// <summary>The kind of quantity, with its article: "a pressure".</summary>
    public string Kind { get; } = kind;

    /// <summary>The unit in which ranges are given.</summary>
    public string BaseUnit { get; } = baseUnit;

    /// <summary>The unit names.</summary>
    public IReadOnlyCollection<string> Names => units.Keys;

    /// <summary>The value in the base unit.</summary>
    public double ToBase(T quantity) => toBase(quantity);

    /// <summary>Makes a quantity, or returns false when the unit is not one of these.</summary>
    public bool TryMake(double value, string unit, out T? quantity)
    {
        bool found = units.TryGetValue(unit, out Func<double, T>? make);
        quantity = found ? make!(value) : default;
        return found;
    }
}

/// <summary>The kinds of quantity that occur in a cooler file.</summary>
internal static class UnitNames
{
    /// <summary>Absolute, gauge or difference pressures.</summary>
    public static readonly UnitNames<Pressure> Pressures = new("a pressure", "Pa", p => p.Pascals, new()
    {
        ["Pa"] = v => Pressure.FromPascals(v),
        ["kPa"] = v => Pressure.FromKilopascals(v),
        ["MPa"] = v => Pressure.FromMegapascals(v),
        ["mbar"] = v => Pressure.FromMillibars(v),
        ["bar"] = v => Pressure.FromBars(v),
        ["psi"] = v => Pressure.FromPoundsForcePerSquareInch(v),
        ["atm"] = v => Pressure.FromAtmospheres(v),
    });

    /// <summary>Temperatures.</summary>
    public static readonly UnitNames<Temperature> Temperatures = new("a temperature", "K", t => t.Kelvins, new()
    {
        ["K"] = v => Temperature.FromKelvins(v),
        ["degC"] = v => Temperature.FromDegreesCelsius(v),
        ["degF"] = v => Temperature.FromDegreesFahrenheit(v),
    });

    /// <summary>Temperature differences, in kelvins only, so that no offset can be meant.</summary>
    public static readonly UnitNames<TemperatureDelta> TemperatureDifferences = new("a temperature difference", "K", t => t.Kelvins, new()
    {
        ["K"] = v => TemperatureDelta.FromKelvins(v),
    });

    /// <summary>Powers.</summary>
    public static readonly UnitNames<Power> Powers = new("a power", "W", p => (double)p.Watts, new()
    {
        ["mW"] = v => Power.FromMilliwatts(v),
        ["W"] = v => Power.FromWatts(v),
        ["kW"] = v => Power.FromKilowatts(v),
    });

    /// <summary>Thermal conductances, W/K.</summary>
    public static readonly UnitNames<double> Conductances = new("a thermal conductance", "W/K", c => c, new()
    {
        ["W/K"] = v => v,
        ["kW/K"] = v => 1000 * v,
    });

    /// <summary>Volumes.</summary>
    public static readonly UnitNames<Volume> Volumes = new("a volume", "m3", v => v.CubicMeters, new()
    {
        ["cm3"] = v => Volume.FromCubicCentimeters(v),
        ["mL"] = v => Volume.FromMilliliters(v),
        ["L"] = v => Volume.FromLiters(v),
        ["m3"] = v => Volume.FromCubicMeters(v),
    });

    /// <summary>Shaft speeds; Hz are revolutions a second.</summary>
    public static readonly UnitNames<RotationalSpeed> Speeds = new("a shaft speed", "1/min", s => s.RevolutionsPerMinute, new()
    {
        ["1/min"] = v => RotationalSpeed.FromRevolutionsPerMinute(v),
        ["Hz"] = v => RotationalSpeed.FromRevolutionsPerSecond(v),
    });

    /// <summary>Volume flows.</summary>
    public static readonly UnitNames<VolumeFlow> VolumeFlows = new("a volume flow", "m3/s", f => f.CubicMetersPerSecond, new()
    {
        ["cm3/s"] = v => VolumeFlow.FromCubicCentimetersPerMinute(60 * v),
        ["L/min"] = v => VolumeFlow.FromLitersPerMinute(v),
        ["m3/h"] = v => VolumeFlow.FromCubicMetersPerHour(v),
        ["m3/s"] = v => VolumeFlow.FromCubicMetersPerSecond(v),
    });

    /// <summary>Lengths.</summary>
    public static readonly UnitNames<Length> Lengths = new("a length", "m", l => l.Meters, new()
    {
        ["mm"] = v => Length.FromMillimeters(v),
        ["m"] = v => Length.FromMeters(v),
        ["km"] = v => Length.FromKilometers(v),
        ["ft"] = v => Length.FromFeet(v),
    });

    /// <summary>Areas.</summary>
    public static readonly UnitNames<Area> Areas = new("an area", "m2", a => a.SquareMeters, new()
    {
        ["mm2"] = v => Area.FromSquareMillimeters(v),
        ["cm2"] = v => Area.FromSquareCentimeters(v),
        ["m2"] = v => Area.FromSquareMeters(v),
    });

    /// <summary>Masses.</summary>
    public static readonly UnitNames<Mass> Masses = new("a mass", "kg", m => m.Kilograms, new()
    {
        ["g"] = v => Mass.FromGrams(v),
        ["kg"] = v => Mass.FromKilograms(v),
    });

    private static readonly (string Kind, IReadOnlyCollection<string> Names)[] All =
    [
        (Pressures.Kind, Pressures.Names),
        (Temperatures.Kind, Temperatures.Names),
        (Powers.Kind, Powers.Names),
        (Conductances.Kind, Conductances.Names),
        (Volumes.Kind, Volumes.Names),
        (Speeds.Kind, Speeds.Names),
        (VolumeFlows.Kind, VolumeFlows.Names),
        (Lengths.Kind, Lengths.Names),
        (Areas.Kind, Areas.Names),
        (Masses.Kind, Masses.Names),
        ("a mass flow", ["g/s", "kg/h", "kg/s"]),
    ];

    /// <summary>The kind of quantity a unit belongs to, or null when the unit is not known at all.</summary>
    public static string? KindOf(string unit)
    {
        foreach ((string kind, IReadOnlyCollection<string> names) in All)
        {
            if (names.Contains(unit))
            {
                return kind;
            }
        }

        return null;
    }
}
