namespace CryoThermo.Design;

/// <summary>A limit as the search sees it.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Value">Its figure.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Margin">Distance to the limit in the unit of the figure, positive where it is kept.</param>
/// <param name="Scale">What counts as one unit of violation.</param>
/// <param name="Unit">Unit.</param>
internal readonly record struct MarginFigure(BlendConstraintKind Kind, double Value, double Limit, double Margin, double Scale, string Unit)
{
    /// <summary>Margin in units of its scale.</summary>
    public double Scaled => Margin / Scale;
}
