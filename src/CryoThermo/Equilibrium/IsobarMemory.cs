namespace CryoThermo.Equilibrium;

/// <summary>The scan of an isobar, kept for the next one, hardly different. Not thread-safe.</summary>
internal sealed class IsobarMemory
{
    /// <summary>How far from a temperature what is remembered still helps, K.</summary>
    private const double Reach = 6;

    private IReadOnlyList<IsobarBuilder.Point> points = [];

    /// <summary>The point nearest to a temperature; null where none is near.</summary>
    public IsobarBuilder.Point? Near(double temperature)
    {
        IsobarBuilder.Point? nearest = points.MinBy(p => Math.Abs(p.Temperature - temperature));
        return nearest is not null && Math.Abs(nearest.Temperature - temperature) <= Reach ? nearest : null;
    }

    /// <summary>Takes another scan in the place of the last one.</summary>
    public void Take(IReadOnlyList<IsobarBuilder.Point> scanned) => points = scanned;
}
