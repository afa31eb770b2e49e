using CryoThermo;
using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using CryoThermo.Insulation;
using UnitsNet;

// dotnet run -c Release --project docs/examples/ChargeBench
// Charges the bench cooler: leak test, evacuation, recipe, what was filled by the readings, standing pressure, top-up after a leak.
// Ends with 0, or with 3 when a step is refused or cannot be computed.
try
{
    Pressure atmosphere = GaugePressure.StandardAtmosphere(Length.FromMeters(430));
    Temperature room = Temperature.FromDegreesCelsius(22);
    MachineVolume[] machine =
    [
        new("compressor shell", Volume.FromLiters(1.8), Temperature.FromDegreesCelsius(30)),
        new("after-cooler", Volume.FromLiters(0.25), room),
        new("recuperator", Volume.FromLiters(0.6), room),
        new("buffer", Volume.FromLiters(4), room),
    ];
    Volume whole = Volume.FromLiters(machine.Sum(v => v.Volume.Liters));
    WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");

    // 1. Is it strong and tight? 25 bar gauge of nitrogen, then a night.
    StrengthTestEnergy strength = StrengthTestEnergy.Of(nitrogen, whole, Pressure.FromBars(26), room, atmosphere);
    Show(strength.ToTable());
    PressureDecayTest decay = new(nitrogen, whole, Pressure.FromMillibars(10), TemperatureDelta.FromKelvins(0.2), 0.03);
    PressureDecayReading evening = new(new(Pressure.FromBars(18.00), atmosphere), Temperature.FromDegreesCelsius(22.4));
    PressureDecayReading morning = new(new(Pressure.FromBars(17.60), atmosphere), Temperature.FromDegreesCelsius(17.1));
    Show(decay.Evaluate(evening, morning, Duration.FromHours(14)).ToTable());
    Console.WriteLine($"A leak of 1e-4 Pa m3/s (1e-3 mbar L/s) shows after {decay.TimeToResolve(evening, 1e-4).Hours:0} h.");
    Console.WriteLine();

    // 2. Evacuate: is the rise a leak or water?
    double[] rise = [3.0, 6.9, 9.9, 12.3, 14.2, 15.7, 17.0, 18.1, 19.0, 19.9, 20.6, 21.3, 21.9, 22.5, 23.1];
    Show(RateOfRise.Fit(whole, [.. rise.Select((p, i) => new RateOfRisePoint(Duration.FromMinutes(5 * i), Pressure.FromPascals(p)))]).ToTable());
    PurgeCycles purged = PurgeCycles.FromRoomAir(room, atmosphere, 0.5, Pressure.FromPascals(50), Pressure.FromBars(1.5), 2, Pressure.FromBars(6), 3);
    Show(purged.ToTable());
    Show(DrierCapacity.Of(Mass.FromGrams(15), 0.12, Mass.FromGrams(250), 300, Mass.FromGrams(60), 20, Mass.FromGrams(0.4)).ToTable());

    // 3. The recipe.
    WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));
    ChargeRequest request = new()
    {
        Wanted = blend,
        Volumes = machine,
        LocalAtmosphere = atmosphere,
        FinalPressure = Pressure.FromBars(6),
        AllowedPressure = Pressure.FromBars(19),
        ReliefSetting = Pressure.FromBars(19),
        Bottles =
        [
            GasBottle.Liquefied("isobutane", room, Mass.FromKilograms(9.4)),
            GasBottle.Liquefied("propane", room, Mass.FromKilograms(11.2)),
            GasBottle.Liquefied("ethane", room, Mass.FromKilograms(5.8)),
            GasBottle.Compressed("methane", room, Pressure.FromBars(120), Volume.FromLiters(10)),
            GasBottle.Compressed("nitrogen", room, Pressure.FromBars(150), Volume.FromLiters(10)),
        ],
    };
    ChargeRecipe recipe = ChargeRecipe.Solve(request);
    Show(recipe.ToTable());
    foreach (string remark in recipe.Remarks)
    {
        Console.WriteLine($"- {remark}");
    }

    Console.WriteLine();

    // 4. What can go wrong with these instruments, and what was really filled by the readings taken.
    ReadingUncertainty instruments = new()
    {
        GaugeZero = Pressure.FromMillibars(10),
        GaugeReadingShare = 0.005,
        Weighing = Mass.FromGrams(0.5),
        Temperature = TemperatureDelta.FromKelvins(1),
        VolumeShare = 0.01,
    };
    Show(ChargeTolerance.Of(recipe, instruments).ToTable());
    double[] read = [0.14, 0.98, 2.39, 4.22, 5.06];
    double[] grams = [17.8, 10.1, 12.4, 8.2, 6.4];
    ChargeEstimate filled = ChargeEstimate.FromReadings(
        blend,
        machine,
        [.. recipe.Steps.Select((s, i) => new ChargeReading(s.Component.Name, new GaugePressure(Pressure.FromBars(read[i]), atmosphere), Mass.FromGrams(grams[i])))],
        instruments);
    Show(filled.ToTable());
    Console.WriteLine($"Readings this far apart or farther: probability {filled.Consistency:0.000} if the stated errors are right.");
    Console.WriteLine();

    // 5. At rest, on a hot day, at the start of the motor.
    StandingCharge standing = StandingCharge.Of(recipe);
    Show(standing.ToTable(room, Temperature.FromDegreesCelsius(43), Temperature.FromDegreesCelsius(55)));
    StartCheck start = standing.CheckStart(room, Pressure.FromBars(5));
    Console.WriteLine($"Motor that starts against 5 bar absolute: {(start.CanStart ? "starts" : "does not start")}, margin {start.Margin.Bars:+0.00;-0.00} bar, buffer to add {standing.BufferVolumeFor(Pressure.FromBars(5), room).Liters:0.0} L.");
    Console.WriteLine();

    // 6. A year later it stands at 4.9 bar absolute.
    Show(TopUpAdvice.ForPressure(request, Pressure.FromBars(4.9)).ToTable());
    Show(BottleEndurance.OfCompressed(
        GasBottle.Compressed("nitrogen", room, Pressure.FromBars(150), Volume.FromLiters(10)), Pressure.FromBars(5), MolarFlow.FromMolesPerSecond(1e-3)).ToTable());

    Console.WriteLine("Cautions");
    Console.WriteLine("--------");
    foreach (Caution caution in recipe.Cautions.Concat(strength.Cautions).Concat(start.Cautions))
    {
        Console.WriteLine($"{caution.Severity}: {caution.Title}: {caution.Figure}.");
        Console.WriteLine($"    Rule: {caution.Rule}. Source: {caution.Source.Publication}{(caution.Source.FromMemory ? " (from memory)" : string.Empty)}.");
        Console.WriteLine($"    {caution.Advice}");
    }

    return 0;
}
catch (Exception error) when (error is ChargeRefusedException or ConvergenceException or ArgumentException)
{
    Console.Error.WriteLine($"The charge could not be computed: {error.Message}");
    return 3;
}

static void Show(ResultTable table) => Console.WriteLine(table);
