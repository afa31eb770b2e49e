using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// One way that heat takes into a cold box: from the room, or from an intercept, to the cold, or to an intercept. Immutable and thread-safe.
/// </summary>
public sealed class HeatLeakItem
{
    private static readonly Lazy<WorkingFluid> Air = new(() => WorkingFluid.Pure("air"));

    private readonly Func<Temperature, Temperature, HeatLeakFigure> figure;

    internal HeatLeakItem(string name, Func<Temperature, Temperature, HeatLeakFigure> figure, Temperature? coldEnd = null, Temperature? warmEnd = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Name = name;
        this.figure = figure;
        ColdEnd = coldEnd;
        WarmEnd = warmEnd;
    }

    /// <summary>For reports.</summary>
    public string Name { get; }

    /// <summary>Where it ends; null for the cold of the budget, else an intercept.</summary>
    public Temperature? ColdEnd { get; }

    /// <summary>Where it starts; null for the room, else an intercept.</summary>
    public Temperature? WarmEnd { get; }

    /// <summary>Heat that is known already: measured, or computed elsewhere.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="heat">With its least and greatest, rising; the same at every temperature.</param>
    /// <param name="source">Where it comes from.</param>
    /// <exception cref="ArgumentException">The band does not rise.</exception>
    public static HeatLeakItem Known(string name, FigureBand<Power> heat, Source source)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(source);
        (double least, double nominal, double greatest) = ((double)heat.Least.Watts, (double)heat.Nominal.Watts, (double)heat.Greatest.Watts);
        return least <= nominal && nominal <= greatest
            ? new(name, (_, _) => new(nominal, least, greatest, [source], [], []))
            : throw new ArgumentException($"heat of '{name}' is {least:G4} to {nominal:G4} to {greatest:G4} W; it must rise from least to greatest.", nameof(heat));
    }

    /// <summary>A surface under foam, wool, powder or blanket: a vessel, a pipe, a box, a lid.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="surface">The surface.</param>
    public static HeatLeakItem Insulated(string name, InsulatedSurface surface)
    {
        ArgumentNullException.ThrowIfNull(surface);
        return new(name, (cold, warm) =>
        {
            FigureBand<Power> heat = surface.Heat(cold, warm);
            List<string> notes = [];
            if (surface.Insulation.Remark is { } remark)
            {
                notes.Add(remark);
            }

            if (surface.CriticalRadius(cold, warm) is { } critical && 0.5 * OuterWidth(surface) < critical.Meters)
            {
                notes.Add($"The outside lies within the critical radius of {critical.Millimeters:F1} mm: more insulation lets in more heat.");
            }

            return new((double)heat.Nominal.Watts, (double)heat.Least.Watts, (double)heat.Greatest.Watts, surface.Insulation.Sources, notes, []);
        });
    }

    /// <summary>A surface under a multilayer blanket in a vacuum.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="blanket">The blanket.</param>
    /// <param name="area">Mean of its inside and outside, 1 mm2 to 1000 m2.</param>
    /// <param name="gas">What is left between its layers; none where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">The area is out of its range.</exception>
    public static HeatLeakItem Blanket(string name, MultilayerInsulation blanket, Area area, ResidualGas? gas = null)
    {
        ArgumentNullException.ThrowIfNull(blanket);
        double a = CheckArea(area, nameof(area));
        return new(name, (cold, warm) =>
        {
            MultilayerResult result = blanket.Between(cold, warm, gas);
            return new(
                a * result.Flux.Nominal.WattsPerSquareMeter, a * result.Flux.Least.WattsPerSquareMeter, a * result.Flux.Greatest.WattsPerSquareMeter, result.Sources, result.Notes, []);
        });
    }

    /// <summary>Radiation onto a finished surface across a bare vacuum.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="innerArea">Of the cold surface, 1 mm2 to 1000 m2.</param>
    /// <param name="inner">Its finish.</param>
    /// <param name="outer">Finish of what surrounds it.</param>
    /// <param name="areaRatio">Area of the cold over that of the warm surface, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakItem Radiation(string name, Area innerArea, SurfaceFinish inner, SurfaceFinish outer, double areaRatio = 1)
    {
        ArgumentNullException.ThrowIfNull(inner);
        ArgumentNullException.ThrowIfNull(outer);
        double a = CheckArea(innerArea, nameof(innerArea));
        Guard.InRange(areaRatio, 1e-6, 1, "of the outer area");
        return new(name, (cold, warm) =>
        {
            FigureBand<HeatFlux> flux = VacuumRadiation.BetweenFinishes(cold, inner, warm, outer, areaRatio);
            return new(a * flux.Nominal.WattsPerSquareMeter, a * flux.Least.WattsPerSquareMeter, a * flux.Greatest.WattsPerSquareMeter, [inner.Source, outer.Source], [], []);
        });
    }

    /// <summary>Radiation through floating shields; least and greatest with every emissivity at half and at twice its figure, since none is known better unless measured.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="innerArea">Of the cold surface, 1 mm2 to 1000 m2.</param>
    /// <param name="innerEmissivity">2e-4 to 1.</param>
    /// <param name="outerEmissivity">2e-4 to 1.</param>
    /// <param name="areaRatio">Area of the cold over that of the warm surface, above 0 to 1.</param>
    /// <param name="shields">From the inner to the outer.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakItem ShieldedRadiation(
        string name, Area innerArea, double innerEmissivity, double outerEmissivity, double areaRatio, IReadOnlyList<FloatingShield> shields)
    {
        ArgumentNullException.ThrowIfNull(shields);
        double a = CheckArea(innerArea, nameof(innerArea));
        Guard.InRange(innerEmissivity, 2e-4, 1, "of black");
        Guard.InRange(outerEmissivity, 2e-4, 1, "of black");
        FloatingShield[] own = [.. shields];
        Source source = new("emissivities given by the caller, grey diffuse surfaces", FromMemory: false);
        return new(name, (cold, warm) =>
        {
            double With(double factor)
            {
                double Own(double e) => Math.Clamp(e * factor, 1e-4, 1);
                FloatingShield[] changed = [.. own.Select(s => new FloatingShield(Own(s.InnerSideEmissivity), Own(s.OuterSideEmissivity), s.AreaOverInner))];
                return a * VacuumRadiation.Across(cold, Own(innerEmissivity), warm, Own(outerEmissivity), areaRatio, changed).Flux.WattsPerSquareMeter;
            }

            return new(With(1), With(0.5), With(2), [source], [], []);
        });
    }

    /// <summary>Gas left in a vacuum space, radiation apart.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="gas">The gas and its pressure.</param>
    /// <param name="gap">The space; its inner wall is the cold one.</param>
    /// <param name="innerArea">Of the inner wall, 1 mm2 to 1000 m2.</param>
    /// <exception cref="ArgumentOutOfRangeException">The area is out of its range.</exception>
    public static HeatLeakItem Gas(string name, ResidualGas gas, GasGap gap, Area innerArea)
    {
        ArgumentNullException.ThrowIfNull(gas);
        ArgumentNullException.ThrowIfNull(gap);
        double a = CheckArea(innerArea, nameof(innerArea));
        return new(name, (cold, warm) =>
        {
            ResidualGasResult result = gas.Across(gap, new(cold), new(warm));
            return new(
                a * result.Flux.Nominal.WattsPerSquareMeter, a * result.Flux.Least.WattsPerSquareMeter, a * result.Flux.Greatest.WattsPerSquareMeter, result.Sources, result.Notes, []);
        });
    }

    /// <summary>Bars in series, from the warm to the cold end, alike and side by side: supports, necks, tubes, valve bodies, stems.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="bars">From the warm to the cold end, one or more.</param>
    /// <param name="count">How many such, 1 to 10 000.</param>
    /// <exception cref="ArgumentException">There is no bar.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The count is out of its range.</exception>
    public static HeatLeakItem Bars(string name, IReadOnlyList<ConductionBar> bars, int count = 1)
    {
        ConductionPath path = new(name, bars);
        Guard.InRange(count, 1, 10_000, "pieces");
        return new(name, (cold, warm) =>
        {
            PathHeat heat = ThrottleBody.HeatThrough(path, warm, cold);
            double watts = count * (double)heat.Heat.Watts;
            return new(
                watts,
                watts * (1 - heat.UncertaintyShare),
                watts * (1 + heat.UncertaintyShare),
                [.. path.Bars.SelectMany(b => b.Material.Sources).Distinct()],
                [.. path.Bars.Select(b => b.Material.Remark).OfType<string>().Distinct()],
                [.. path.Bars.Select(b => b.Material.ColdService?.CautionAt(cold)).OfType<Caution>().Distinct()]);
        });
    }

    /// <summary>Wires from the warm to the cold end.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="material">Of their metal.</param>
    /// <param name="diameter">Of the metal, without its insulation, 1 micrometre to 100 mm.</param>
    /// <param name="length">From the warm to the cold end, above zero.</param>
    /// <param name="count">How many, 1 to 10 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakItem Wires(string name, SolidMaterial material, Length diameter, Length length, int count)
    {
        double d = Guard.InRange(diameter.Meters, 1e-6, 0.1, "m", nameof(diameter));
        return Bars(name, [new(material, length, Area.FromSquareMeters(0.25 * Math.PI * d * d))], count);
    }

    /// <summary>
    /// A bar tied to an intercept on its way: the part from the room to it, and the part from it to the cold, as two items.
    /// </summary>
    /// <param name="name">For reports.</param>
    /// <param name="bar">The whole bar.</param>
    /// <param name="fromColdEnd">Length between the cold end and the intercept, above zero and below that of the bar.</param>
    /// <param name="intercept">Temperature of the intercept.</param>
    /// <param name="count">How many such, 1 to 10 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static IReadOnlyList<HeatLeakItem> Anchored(string name, ConductionBar bar, Length fromColdEnd, Temperature intercept, int count = 1)
    {
        ArgumentNullException.ThrowIfNull(bar);
        double whole = bar.Length.Meters;
        double part = Guard.InRange(fromColdEnd.Meters, 1e-9 * whole, whole * (1 - 1e-9), "m", nameof(fromColdEnd));
        return
        [
            Bars($"{name}, below the intercept", [new(bar.Material, Length.FromMeters(part), bar.CrossSection)], count).To(null, intercept),
            Bars($"{name}, above the intercept", [new(bar.Material, Length.FromMeters(whole - part), bar.CrossSection)], count).To(intercept, null),
        ];
    }

    /// <summary>A bare cold pipe in the air of the room: greatest with settling moisture and convection at its upper end, least without moisture.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="pipe">The pipe.</param>
    /// <param name="length">1 mm to 1000 m.</param>
    /// <param name="humidity">Relative humidity of the room, 1 to 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakItem Bare(string name, BarePipe pipe, Length length, RelativeHumidity humidity)
    {
        ArgumentNullException.ThrowIfNull(pipe);
        double l = Guard.InRange(length.Meters, 1e-3, 1000, "m", nameof(length));
        Guard.InRange(humidity.Percent, 1, 100, "%", nameof(humidity));
        return new(name, (cold, warm) =>
        {
            BarePipeResult result = pipe.InRoom(cold, warm, humidity);
            double area = Math.PI * pipe.OuterDiameter.Meters * l;
            return Bared(area, result.Convection, result.Radiation, l * result.MoistureHeatPerLength.WattsPerMeter, result.Cautions);
        });
    }

    /// <summary>A bare cold upright wall in the air of the room, with the band of <see cref="Bare"/>.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="area">1 mm2 to 1000 m2.</param>
    /// <param name="height">1 mm to 100 m.</param>
    /// <param name="emissivity">1e-4 to 1; rime makes it 0.9 (from memory).</param>
    /// <param name="humidity">Relative humidity of the room, 1 to 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakItem BareWall(string name, Area area, Length height, double emissivity, RelativeHumidity humidity)
    {
        double a = CheckArea(area, nameof(area));
        Guard.InRange(height.Meters, 1e-3, 100, "m", nameof(height));
        return BareFace(name, a, emissivity, humidity, (cold, room) => NaturalConvection.VerticalPlate(Air.Value, Pressure.FromAtmospheres(1), cold, room, height));
    }

    /// <summary>A bare cold lid that looks up into the air of the room, with the band of <see cref="Bare"/>.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="area">1 mm2 to 1000 m2.</param>
    /// <param name="perimeter">Around it.</param>
    /// <param name="emissivity">1e-4 to 1; rime makes it 0.9 (from memory).</param>
    /// <param name="humidity">Relative humidity of the room, 1 to 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakItem BareLid(string name, Area area, Length perimeter, double emissivity, RelativeHumidity humidity)
    {
        double a = CheckArea(area, nameof(area));
        Guard.Positive(perimeter.Meters, "m", nameof(perimeter));
        Guard.InRange(a / perimeter.Meters, 1e-4, 10, "m of area over perimeter", nameof(area));
        return BareFace(
            name, a, emissivity, humidity, (cold, room) => NaturalConvection.HorizontalPlate(Air.Value, Pressure.FromAtmospheres(1), cold, room, area, perimeter, facesUp: true));
    }

    /// <summary>The same between other ends: to or from an intercept.</summary>
    /// <param name="coldEnd">Temperature of the intercept it ends at; null for the cold of the budget.</param>
    /// <param name="warmEnd">Temperature of the intercept it starts from; null for the room.</param>
    public HeatLeakItem To(Temperature? coldEnd, Temperature? warmEnd) => new(Name, figure, coldEnd, warmEnd);

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>Heat between two temperatures.</summary>
    internal HeatLeakFigure Between(Temperature cold, Temperature warm) => figure(cold, warm);

    private static double CheckArea(Area area, string parameter) => Guard.InRange(area.SquareMeters, 1e-6, 1000, "m2", parameter);

    private static HeatLeakItem BareFace(string name, double area, double emissivity, RelativeHumidity humidity, Func<Temperature, Temperature, NaturalConvectionResult> convect)
    {
        Guard.InRange(emissivity, 1e-4, 1, "of black");
        Guard.InRange(humidity.Percent, 1, 100, "%", nameof(humidity));
        return new(name, (cold, warm) =>
        {
            NaturalConvectionResult convection = convect(cold, warm);
            RadiationResult radiation = GreySurfaces.ToRoom(cold, emissivity, warm);
            double moisture = area * BarePipe.MoistureFlux(cold, warm, humidity, convection.Coefficient.WattsPerSquareMeterKelvin);

            // The cautions of a cold bare surface are those of a pipe as cold.
            BarePipeResult alike = new BarePipe(Length.FromCentimeters(10), emissivity).InRoom(cold, warm, humidity);
            return Bared(area, convection, radiation, moisture, [.. alike.Cautions.Select(c => c with { Title = c.Title.Replace("the pipe", "bare metal", StringComparison.Ordinal) })]);
        });
    }

    private static HeatLeakFigure Bared(double area, NaturalConvectionResult convection, RadiationResult radiation, double moisture, IReadOnlyList<Caution> cautions)
    {
        double convected = -area * convection.Flux.WattsPerSquareMeter;
        double radiated = -area * radiation.Flux.WattsPerSquareMeter;
        double doubt = 0.01 * convection.UncertaintyPercent * Math.Abs(convected);
        return new(
            convected + radiated,
            convected + radiated - doubt,
            convected + radiated + doubt + moisture,
            [convection.Source, MoistAir.Source],
            [.. convection.Notes, "Still air; a draught doubles convection."],
            cautions);
    }

    private static double OuterWidth(InsulatedSurface surface) => surface.Body.OuterWidth(surface.Thickness.Meters);
}
