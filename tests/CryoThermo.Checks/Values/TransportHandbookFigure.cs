namespace CryoThermo.Checks.Values;

/// <summary>A transport figure of handbooks: the range over the editions recalled, of the gas at 101325 Pa or the boiling liquid; K and the unit given.</summary>
public sealed record TransportHandbookFigure(
    string Fluid, double Temperature, HandbookPhase Phase, TransportQuantity Quantity, double Lowest, double Highest, string Unit);
