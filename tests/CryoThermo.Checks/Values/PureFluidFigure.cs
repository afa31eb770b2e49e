namespace CryoThermo.Checks.Values;

/// <summary>A published figure of a pure fluid.</summary>
public sealed record PureFluidFigure(
    PureFluidQuantity What,
    string Fluid,
    double Temperature,
    double Pressure,
    double Value,
    string Unit,
    double RelativeTolerance,
    double ComputedByReferenceEquation,
    string Source,
    bool FromMemory);
