using CryoThermo.Diagnostics;

namespace CryoThermo.Insulation;

/// <summary>Heat of one item between two temperatures, W, with what it rests on.</summary>
internal sealed record HeatLeakFigure(
    double Nominal, double Least, double Greatest, IReadOnlyList<Source> Sources, IReadOnlyList<string> Notes, IReadOnlyList<Caution> Cautions);
