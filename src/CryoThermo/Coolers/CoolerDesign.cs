using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using CryoThermo.Safety;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>
/// What a described throttle cooler does at its demanded cold temperature and over a range of them, with both pressures
/// taken as held by the throttle. Pressure drops are lumped: that of the high side before the recuperator, that of the
/// low side behind it, so that the streams meet at the cold end's pressures, which is cautious. The flow follows from
/// the density at the compressor's suction. Immutable and thread-safe.
/// </summary>
public sealed class CoolerDesign
{
    private const double SearchBelow = 35;
    private const double LowestSearched = 40;
    private const double SearchAtLeastBelow = 3;
    private const int CurvePoints = 41;
    private const string ThrottleInletPlace = "throttle inlet";

    private CoolerDesign(Solver solver)
    {
        Description = solver.Description;
        Fluid = solver.Fluid;
        Cycle = solver.Cycle;
        CapacityError = Fluid.Model.CapacityErrorOf(Fluid.Composition);
        ColdTemperature = Description.Load.ColdTemperature;
        double cold = ColdTemperature.Kelvins;
        Limit = Cycle.GreatestCooling(ColdTemperature);
        GreatestCooling = Power.FromWatts(solver.GreatestCooling(cold));

        (double flow, double perMole) = solver.WithConductance(cold, solver.Conductance);
        State leaving = Fluid.At(ColdTemperature, solver.EvaporatorPressure);
        State throttleInlet = Fluid.AtEnthalpy(solver.ThrottleInletPressure, solver.WarmEnd.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(perMole));
        State evaporatorInlet = Throttle.Expand(throttleInlet, solver.EvaporatorPressure);
        State suction = Fluid.AtEnthalpy(solver.LowPressure, leaving.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(perMole));
        Compression = solver.Compress(suction);
        double gross = Compression.MolarFlow.MolesPerSecond * (leaving.MolarEnthalpy.JoulesPerMole - evaporatorInlet.MolarEnthalpy.JoulesPerMole);
        GrossCooling = Power.FromWatts(gross);
        NetCooling = Power.FromWatts(gross - (double)Description.HeatLeak.Watts);
        Recuperator = new Recuperator(Cycle.HighPressureIsobar, Cycle.LowPressureIsobar, Cycle.Kernel.Recuperator(cold, flow))
            .WithConductance(solver.Conductance);

        List<LoopPoint> loop =
        [
            new("compressor suction", suction),
            new("compressor discharge", Compression.Discharge),
            new("after-cooler outlet", solver.AfterCoolerOutlet),
        ];
        AfterCoolerHeat = Power.FromWatts(
            Compression.MolarFlow.MolesPerSecond * (Compression.Discharge.MolarEnthalpy.JoulesPerMole - solver.AfterCoolerOutlet.MolarEnthalpy.JoulesPerMole));
        if (Description.PreCoolerOutletTemperature is not null)
        {
            loop.Add(new("pre-cooler outlet", solver.WarmEnd));
            PreCoolerHeat = Power.FromWatts(
                Compression.MolarFlow.MolesPerSecond * (solver.AfterCoolerOutlet.MolarEnthalpy.JoulesPerMole - solver.WarmEnd.MolarEnthalpy.JoulesPerMole));
        }

        loop.Add(new(ThrottleInletPlace, throttleInlet));
        loop.Add(new("throttle outlet", evaporatorInlet));
        loop.Add(new("cold head outlet", leaving));
        Loop = loop;

        double demanded = (double)Description.Load.Demanded.Watts;
        RequiredConductanceWattsPerKelvin = solver.RequiredConductance(cold, demanded + (double)Description.HeatLeak.Watts);
        IdealLowestTemperature = Cycle.LowestTemperature();
        LowestTemperatureWithConductance = solver.LowestWithConductance();
        double ambient = Description.AmbientTemperature.Kelvins;
        PercentOfCarnot = 100 * (double)NetCooling.Watts * ((ambient / cold) - 1) / (double)Compression.Power.Watts;
        Curve = solver.Curve();
        Cautions = CautionRules.Assess(solver.Circuit(ColdestOf(evaporatorInlet.Temperature, LowestTemperatureWithConductance), Compression.Discharge));
        Remarks = CollectRemarks(solver, suction, evaporatorInlet);
    }

    /// <summary>The description this was computed from.</summary>
    public CoolerDescription Description { get; }

    /// <summary>The circulating fluid; its pedigree tells model and pair parameters.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>Known error of every capacity figure here; null for a model without one on record.</summary>
    public CapacityError? CapacityError { get; }

    /// <summary>The limit of the cycle between the pressures at the cold end.</summary>
    public ThrottleCycle Cycle { get; }

    /// <summary>The demanded cold temperature, at which the figures below hold: that of the stream leaving the cold head.</summary>
    public Temperature ColdTemperature { get; }

    /// <summary>The states round the loop, from the compressor suction on.</summary>
    public IReadOnlyList<LoopPoint> Loop { get; }

    /// <summary>Flow, power and discharge state.</summary>
    public CompressorResult Compression { get; }

    /// <summary>Heat rejected in the after-cooler.</summary>
    public Power AfterCoolerHeat { get; }

    /// <summary>Heat taken out by the pre-cooler; null without one. Its own power is not part of any figure here.</summary>
    public Power? PreCoolerHeat { get; }

    /// <summary>The greatest cooling a mole and the pinch that limits it.</summary>
    public CycleLimit Limit { get; }

    /// <summary>Cooling with a perfect recuperator, leak not taken off.</summary>
    public Power GreatestCooling { get; }

    /// <summary>Cooling with the described recuperator, leak not taken off.</summary>
    public Power GrossCooling { get; }

    /// <summary>Cooling left for the load: gross less leak. Negative when the cooler cannot hold the temperature.</summary>
    public Power NetCooling { get; }

    /// <summary>Whether the demanded load is met.</summary>
    public bool MeetsLoad => NetCooling >= Description.Load.Demanded;

    /// <summary>The described recuperator at the cold temperature.</summary>
    public RecuperatorResult Recuperator { get; }

    /// <summary>Conductance that the demanded load and the leak need, W/K; null when even a perfect recuperator is not enough.</summary>
    public double? RequiredConductanceWattsPerKelvin { get; }

    /// <summary>Lowest temperature with a perfect recuperator and no leak; null when there is none.</summary>
    public LowestTemperature? IdealLowestTemperature { get; }

    /// <summary>Lowest temperature with the described recuperator and leak, no load; null when there is none.</summary>
    public LowestTemperature? LowestTemperatureWithConductance { get; }

    /// <summary>Net cooling times (ambient/cold - 1) over the power taken up by the gas, percent.</summary>
    public double PercentOfCarnot { get; }

    /// <summary>Cooling over cold temperature, from cold to warm.</summary>
    public IReadOnlyList<CoolingPoint> Curve { get; }

    /// <summary>What can hurt people or the machine.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>What the figures leave out or are uncertain about, for the reader.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>Computes the design of a described cooler.</summary>
    /// <param name="description">The cooler.</param>
    /// <exception cref="ArgumentException">
    /// The parts do not fit together: the high-pressure stream enters the recuperator colder than the cold end, or boils there at
    /// one temperature, or the discharge is hotter than the library computes.
    /// </exception>
    /// <exception cref="ConvergenceException">A state could not be solved.</exception>
    public static CoolerDesign Evaluate(CoolerDescription description)
    {
        ArgumentNullException.ThrowIfNull(description);
        return new(new Solver(description));
    }

    /// <summary>
    /// What is nearest to freezing round the loop and along the recuperator, at the states of this design: the charge, and traces beside it.
    /// </summary>
    /// <param name="impurities">Traces that are not part of the charge, for example water and carbon dioxide; may be empty.</param>
    /// <exception cref="ArgumentException">A name is unknown or part of the charge.</exception>
    /// <exception cref="InvalidOperationException">The charge is a mixture described as if it were pure (air).</exception>
    public FreezingRisk AssessFreezing(params IReadOnlyList<TraceImpurity> impurities)
    {
        const int Between = 5;
        List<PathPoint> path = [];
        State? entering = null;
        foreach (LoopPoint point in Loop)
        {
            if (point.Place == ThrottleInletPlace && entering is not null)
            {
                double warm = entering.Temperature.Kelvins;
                double cold = point.State.Temperature.Kelvins;
                for (int i = 1; i <= Between; i++)
                {
                    path.Add(new(
                        $"recuperator, high side {i}/{Between + 1}",
                        Temperature.FromKelvins(warm + ((cold - warm) * i / (Between + 1))),
                        point.State.Pressure));
                }
            }

            path.Add(new(point.Place, point.State.Temperature, point.State.Pressure));
            entering = point.State;
        }

        return Fluid.FreezeOut.Along(path, impurities);
    }

    // Without its load the cold end falls to the lowest temperature it can reach: surfaces are judged there.
    private static Temperature ColdestOf(Temperature atLoad, LowestTemperature? lowest) =>
        lowest is { } idle && idle.Temperature < atLoad ? idle.Temperature : atLoad;

    private static string Bar(Pressure pressure) => $"{pressure.Bars:0.00} bar";

    private void AddFreezing(List<string> remarks, State coldest)
    {
        double t = coldest.Temperature.Kelvins;
        if (Fluid.IsPseudoPure)
        {
            return;
        }

        FreezeOut freezing = Fluid.FreezeOut;
        (Substance Component, double LnRatio)[] near = [.. freezing.LnSaturationAt(coldest).Where(c => c.Component.TripleTemperature > t)];
        string[] frozen = [.. near.Where(c => c.LnRatio > 0).Select(c => $"{c.Component.Name} ({Math.Exp(Math.Min(c.LnRatio, 700)):G3})")];
        if (frozen.Length > 0)
        {
            remarks.Add(
                $"FREEZES at {t:0.0} K: {string.Join(", ", frozen)} (in brackets fugacity over that of the solid; above 1 solid forms). By this estimate the cold end does not stay clear; the other figures are those of the fluid alone.");
        }

        string[] dissolved = [.. near.Where(c => c.LnRatio <= 0).Select(c => $"{c.Component.Name} ({Math.Exp(c.LnRatio):0.00})")];
        if (dissolved.Length > 0)
        {
            remarks.Add(
                $"Pure, these would be solid at {t:0.0} K: {string.Join(", ", dissolved)}; in the blend's liquid they stay dissolved (in brackets fugacity over that of the solid; 1 freezes). Pure solids are assumed.");
        }

        string[] unknown = [.. freezing.NotJudged.Where(c => !(c.TripleTemperature < t)).Select(c => c.TripleTemperature is { } triple ? $"{c.Name} ({triple:0.0} K)" : c.Name)];
        if (unknown.Length > 0)
        {
            remarks.Add($"Freezing of {string.Join(", ", unknown)} is not judged: the library has no figures of the solid; pure it would be solid at {t:0.0} K.");
        }
    }

    private List<string> CollectRemarks(Solver solver, State suction, State evaporatorInlet)
    {
        List<string> remarks = [];
        if (CapacityError is { } error)
        {
            remarks.Add(
                $"Every capacity figure carries the known error of the model, {error.LowPercent:+0;-0;0} to {error.HighPercent:+0;-0;0} %. {error.Explanation}");
        }

        foreach (BinaryPair pair in Fluid.Pedigree.EstimatedPairs)
        {
            remarks.Add($"The interaction of {pair.First.Name} and {pair.Second.Name} is estimated, not measured ({pair.Parameters}).");
        }

        foreach (Isobar isobar in (Isobar[])[Cycle.LowPressureIsobar, Cycle.HighPressureIsobar])
        {
            foreach (IsobarStretch stretch in isobar.Stretches)
            {
                if (stretch.To.Kelvins < ColdTemperature.Kelvins - 1)
                {
                    continue;
                }

                if (stretch.Region == PhaseRegion.UnresolvedPhases)
                {
                    remarks.Add(
                        $"At {Bar(isobar.Pressure)} four phases coexist from {stretch.From.Kelvins:0.0} to {stretch.To.Kelvins:0.0} K; figures there are those of the best three.");
                }
                else if (stretch.Region is PhaseRegion.TwoLiquids or PhaseRegion.TwoLiquidsVapor or PhaseRegion.ConstantTemperatureThreePhases or PhaseRegion.ThreeLiquids)
                {
                    remarks.Add(
                        $"At {Bar(isobar.Pressure)} the liquid splits into {(stretch.Region == PhaseRegion.ThreeLiquids ? "three" : "two")} from {stretch.From.Kelvins:0.0} to {stretch.To.Kelvins:0.0} K; the heavier can settle.");
                }
            }
        }

        AddFreezing(remarks, evaporatorInlet);

        if (suction.VaporFraction < 1)
        {
            remarks.Add(
                $"Liquid reaches the compressor ({100 * (1 - suction.VaporMassFraction):0.#} % by mass): the recuperator or the charge must change before this runs.");
        }

        if (Description.AfterCoolerOutletTemperature.Kelvins < Description.AmbientTemperature.Kelvins)
        {
            remarks.Add(
                $"The after-cooler outlet ({Description.AfterCoolerOutletTemperature.DegreesCelsius:0.0} degC) is below ambient ({Description.AmbientTemperature.DegreesCelsius:0.0} degC): "
                + "room air cannot do that; it takes colder water or a chiller, whose power is not counted here.");
        }

        if (solver.Description.PreCoolerOutletTemperature is not null)
        {
            remarks.Add("The pre-cooler's own power is not part of the power and of the percent of Carnot.");
        }

        remarks.Add("Power is that taken up by the gas; the motor and the fan take more."
            + (solver.Compressor.ShellHeatLossFraction > 0 ? string.Empty : " No heat is lost through the compressor shell here, so the true discharge is cooler."));
        return remarks;
    }

    /// <summary>Solves for flow and duty together.</summary>
    private sealed class Solver
    {
        public Solver(CoolerDescription description)
        {
            Description = description;
            Fluid = WorkingFluid.Mixture(description.Charge.ToComposition()).WithModel(description.Model);
            Flammability.RefuseFuelBesideOxidiser(Shares(Fluid.Composition), "The charge", nameof(description));
            LowPressure = description.LowPressure.Absolute;
            HighPressure = description.HighPressure.Absolute;
            EvaporatorPressure = LowPressure + description.Recuperator.LowSidePressureDrop;
            ThrottleInletPressure = HighPressure - description.Recuperator.HighSidePressureDrop;
            Conductance = description.Recuperator.ConductanceWattsPerKelvin;
            Compressor = new(
                description.Compressor.SweptVolumeFlow,
                description.Compressor.IsentropicEfficiency,
                description.Compressor.VolumetricEfficiency,
                description.Compressor.ShellHeatLossFraction);
            AfterCoolerOutlet = Fluid.At(description.AfterCoolerOutletTemperature, HighPressure);
            WarmEnd = description.PreCoolerOutletTemperature is { } preCooled ? Fluid.At(preCooled, HighPressure) : AfterCoolerOutlet;
            State entering = Fluid.AtEnthalpy(ThrottleInletPressure, WarmEnd.MolarEnthalpy);
            Temperature warm = entering.Temperature;
            double load = description.Load.ColdTemperature.Kelvins;
            if (load >= warm.Kelvins)
            {
                throw new ArgumentException(
                    $"load.temperature is {load:G6} K; it must be below {warm.Kelvins:G6} K, at which the high-pressure stream enters the recuperator after its pressure drop.",
                    nameof(description));
            }

            double cold = Math.Min(load, description.CoolingCurve?.Lowest.Kelvins ?? double.PositiveInfinity);
            double lowest = Math.Max(Math.Max(Math.Min(LowestSearched, cold - SearchAtLeastBelow), cold - SearchBelow), Fluid.Kernel.LowestTemperature);
            if (cold <= lowest)
            {
                throw new ArgumentException(
                    $"{(cold < load ? "coolingCurve.lowest" : "load.temperature")} is {cold:G6} K; it must be above {lowest:G6} K, where the model of the fluid begins.",
                    nameof(description));
            }

            Cycle = new(Fluid, EvaporatorPressure, ThrottleInletPressure, warm, Temperature.FromKelvins(lowest));
            if (entering.IsobaricHeatCapacity is null && Math.Abs(entering.MolarEnthalpy.JoulesPerMole - WarmEndEnthalpy) > 1)
            {
                throw new ArgumentException(
                    $"The high-pressure stream enters the recuperator boiling at one temperature ({warm.Kelvins:G6} K at {ThrottleInletPressure.Bars:G6} bar absolute); change the warm-end temperature, highPressure or its drop so that it is gas or liquid there.",
                    nameof(description));
            }
        }

        public CoolerDescription Description { get; }

        public WorkingFluid Fluid { get; }

        public ThrottleCycle Cycle { get; }

        public Compressor Compressor { get; }

        public Pressure LowPressure { get; }

        public Pressure HighPressure { get; }

        public Pressure EvaporatorPressure { get; }

        public Pressure ThrottleInletPressure { get; }

        public double Conductance { get; }

        public State AfterCoolerOutlet { get; }

        public State WarmEnd { get; }

        private double WarmEndEnthalpy => Cycle.Kernel.HighInletEnthalpy;

        private double Leak => (double)Description.HeatLeak.Watts;

        /// <summary>Cooling with a perfect recuperator, W.</summary>
        public double GreatestCooling(double cold) => CoolingAt(Cycle.Kernel.GreatestCooling(cold).Cooling);

        /// <summary>The compressor on a suction state.</summary>
        public CompressorResult Compress(State suction)
        {
            try
            {
                return Compressor.Compress(suction, HighPressure);
            }
            catch (ArgumentOutOfRangeException error)
            {
                throw new ArgumentException(
                    $"The compressor would discharge hotter than {Fluid.Kernel.HighestTemperature:0} K, where the model ends, from {suction.Pressure.Bars:G4} to {HighPressure.Bars:G4} bar absolute "
                    + $"with an isentropic efficiency of {Description.Compressor.IsentropicEfficiency:G4}; check lowPressure, highPressure and compressor.isentropicEfficiency.",
                    error);
            }
        }

        /// <summary>Flow in mol/s and duty in J/mol with a conductance.</summary>
        public (double Flow, double DutyPerMole) WithConductance(double cold, double conductance)
        {
            double inlet = Cycle.LowPressureIsobar.Table.Enthalpy(cold);
            return FlowMatch.Solve(Cycle.Kernel.Recuperator(cold, 1), conductance, duty => SuctionFlow(inlet + duty));
        }

        /// <summary>Conductance for a cooling in W; null when it is at or above the limit.</summary>
        public double? RequiredConductance(double cold, double cooling)
        {
            double none = Cycle.LowPressureIsobar.Table.Enthalpy(cold) - WarmEndEnthalpy;
            double most = Cycle.Kernel.GreatestCooling(cold).Cooling;
            if (CoolingAt(none) >= cooling)
            {
                return 0;
            }

            if (!(CoolingAt(most) > cooling))
            {
                return null;
            }

            double perMole = FlowMatch.Crossing(q => CoolingAt(q) - cooling, none, CoolingAt(none) - cooling, most, CoolingAt(most) - cooling, 1e-10);
            return Cycle.Kernel.TryConductance(cold, SuctionFlow(WarmEndEnthalpy + perMole), cooling, out double conductance) ? conductance : null;
        }

        /// <summary>Lowest temperature with the described conductance and leak, no load.</summary>
        public LowestTemperature? LowestWithConductance()
        {
            double most = Cycle.Kernel.EnthalpyDifference(Cycle.Kernel.WarmEndTemperature);
            if (!(CoolingAt(most) >= Leak) || most <= 0)
            {
                return null;
            }

            double perMole = Leak == 0 ? 0 : FlowMatch.Crossing(q => CoolingAt(q) - Leak, 0, -Leak, most, CoolingAt(most) - Leak, 1e-10);
            return Cycle.Kernel.LowestTemperature(SuctionFlow(WarmEndEnthalpy + perMole), Conductance, Leak) is { } limit
                ? new(Temperature.FromKelvins(limit.Temperature), limit.AtEndOfIsobars)
                : null;
        }

        public IReadOnlyList<CoolingPoint> Curve()
        {
            double cold = Description.Load.ColdTemperature.Kelvins;
            double low = Description.CoolingCurve?.Lowest.Kelvins ?? Math.Max(Cycle.LowPressureIsobar.Lowest.Kelvins, cold - 25);
            double high = Math.Min(Description.CoolingCurve?.Highest.Kelvins ?? (cold + 100), Cycle.WarmEnd.Kelvins);
            if (low >= high)
            {
                // The pressure drop brought the stream below the warm end described, and so below the curve asked for.
                low = Math.Max(Cycle.LowPressureIsobar.Lowest.Kelvins, high - 10);
            }

            List<CoolingPoint> points = [];
            for (int i = 0; i < CurvePoints; i++)
            {
                double t = Math.Min(high, low + ((high - low) * i / (CurvePoints - 1)));
                (double flow, double duty) = WithConductance(t, Conductance);
                double outlet = Cycle.LowPressureIsobar.Table.Enthalpy(t) + duty;
                points.Add(new(
                    Temperature.FromKelvins(t),
                    Power.FromWatts(GreatestCooling(t)),
                    Power.FromWatts(flow * (outlet - WarmEndEnthalpy)),
                    Power.FromWatts((flow * (outlet - WarmEndEnthalpy)) - Leak)));
            }

            return points;
        }

        public Circuit Circuit(Temperature coldest, State discharge)
        {
            List<ExposedSurface> surfaces = [];
            if (Description.Surroundings.ColdEndOpenToRoomAir)
            {
                surfaces.Add(new("cold end", coldest));
            }

            if (Description.Surroundings.FeedLinesOpenToRoomAir && Description.Feeds.Count > 0)
            {
                surfaces.Add(new("feed and liquid lines", coldest));
            }

            List<FeedGas> feeds = [];
            foreach (FeedDescription feed in Description.Feeds)
            {
                WorkingFluid gas = WorkingFluid.Mixture(feed.Composition.ToComposition()).WithModel(Description.Model);
                bool condenses = gas.TryBubblePoint(Description.Load.ColdTemperature + feed.CondensingApproach, out State? liquid);
                feeds.Add(new(feed.Name, Shares(gas.Composition), condenses ? liquid!.Pressure : Description.Atmosphere, condenses));
            }

            return new()
            {
                Contents = Shares(Fluid.Composition),
                LowPressure = LowPressure,
                HighPressure = HighPressure,
                LocalAtmosphere = Description.Atmosphere,
                ColdestSurface = coldest,
                DischargeTemperature = discharge.Temperature,
                DischargeTemperatureLimit = Description.Compressor.DischargeTemperatureLimit,
                HighPressureReliefSetting = Description.Surroundings.HighPressureRelief?.Absolute,
                ColdLiquidCanBeShutIn = Description.Surroundings.ColdLiquidCanBeShutIn,
                Feeds = feeds,
                SurfacesOpenToRoomAir = surfaces,
                Parts = [.. Description.Parts.Select(p => new CircuitPart(
                    p.Name, p.Coldest ?? coldest, p.IsHighSide ? HighPressure : LowPressure, p.Material, p.Rating?.Absolute))],
            };
        }

        private static List<SubstanceShare> Shares(Composition composition) =>
            [.. composition.Components.Select((c, i) => new SubstanceShare(c.Name, composition.MoleFractions[i]))];

        /// <summary>Cooling in W at a cooling in J/mol: the flow follows from the suction, that much above the warm end's enthalpy.</summary>
        private double CoolingAt(double perMole) => SuctionFlow(WarmEndEnthalpy + perMole) * perMole;

        /// <summary>Flow drawn in at the suction, mol/s, for an enthalpy there in J/mol.</summary>
        private double SuctionFlow(double enthalpy)
        {
            State suction = Fluid.AtEnthalpy(LowPressure, MolarEnergy.FromJoulesPerMole(enthalpy));
            return Compressor.SweptVolumeFlow.CubicMetersPerSecond * Description.Compressor.VolumetricEfficiency * suction.MolarDensity.MolesPerCubicMeter;
        }
    }
}
