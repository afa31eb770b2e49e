using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// A vessel at the warm end of the cold box in which vapour and liquid part, and the cold exchanger behind it. The vapour goes on through both exchangers and the throttle to the cold head; the
/// liquid is throttled into the return between the exchangers by a valve that follows the level, and so passes what settles. Immutable and thread-safe.
/// </summary>
public sealed record PhaseSeparator
{
    /// <summary>
    /// Share of the moles which the valve of the liquid passes wide open at least: where less settles the level falls until it passes just that, and where nothing does the vessel is empty. Floats have
    /// such a band; its width is a guess (common practice, no source), and what it holds back of the liquid vanishes with it.
    /// </summary>
    private const double Band = 0.02;

    /// <summary>Describes a separator.</summary>
    /// <param name="volume">Free volume of the vessel, above zero.</param>
    /// <param name="liquidLevel">Share of that volume which the valve of the liquid keeps full of liquid, 0 to 1.</param>
    /// <param name="coldExchanger">Between the vapour stream and its return, by its conductance and without pressure drops.</param>
    /// <exception cref="ArgumentException">The cold exchanger is given by its tubes, or loses pressure.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public PhaseSeparator(Volume volume, double liquidLevel, CoolerRecuperator coldExchanger)
    {
        ArgumentNullException.ThrowIfNull(coldExchanger);
        Guard.InRange(volume.CubicMeters, 1e-12, 100, "m3", nameof(volume));
        LiquidLevel = Guard.InRange(liquidLevel, 0, 1, "of the volume");
        if (coldExchanger.Tubes is not null)
        {
            throw new ArgumentException($"coldExchanger is given by its tubes; behind a separator it is given by its conductance ({nameof(CoolerRecuperator.OfConductance)}).", nameof(coldExchanger));
        }

        if (coldExchanger.HighSidePressureDrop.Pascals > 0 || coldExchanger.LowSidePressureDrop.Pascals > 0)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"coldExchanger loses {coldExchanger.HighSidePressureDrop.Bars:G4} and {coldExchanger.LowSidePressureDrop.Bars:G4} bar; give all pressure drops with the recuperator of the cooler, the warm exchanger."), nameof(coldExchanger));
        }

        Volume = volume;
        ColdExchanger = coldExchanger;
    }

    /// <summary>Free volume of the vessel.</summary>
    public Volume Volume { get; }

    /// <summary>Share of the volume that is kept full of liquid where 2 % of the moles or more settle; below, the valve closes with a falling level.</summary>
    public double LiquidLevel { get; }

    /// <summary>Between the vapour stream and its return; the recuperator of the cooler is the warm one.</summary>
    public CoolerRecuperator ColdExchanger { get; }

    /// <summary>Level at which the valve passes what settles, as a share of the volume.</summary>
    /// <param name="settling">Moles of liquid over all that arrive.</param>
    internal double LevelAt(double settling) => settling >= Band ? LiquidLevel : LiquidLevel * (settling / Band) * (2 - (settling / Band));

    /// <summary>The same with the conductance of the cold exchanger times a factor.</summary>
    internal PhaseSeparator Scaled(double factor) => new(Volume, LiquidLevel, ColdExchanger.Scaled(factor));

    /// <summary>All volumes together, m3.</summary>
    internal double TotalVolume => Volume.CubicMeters + ColdExchanger.HighSideVolume.CubicMeters + ColdExchanger.LowSideVolume.CubicMeters;
}
