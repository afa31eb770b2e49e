using CryoThermo.Diagnostics;

namespace CryoThermo;

/// <summary>Which share of para and ortho molecules hydrogen has, and whether it changes. Immutable and thread-safe.</summary>
public sealed record HydrogenForm
{
    private HydrogenForm(string name, double? paraFraction)
    {
        Name = name;
        ParaFraction = paraFraction;
    }

    /// <summary>One quarter para, as hydrogen from a cylinder at ambient temperature; does not change without a catalyst.</summary>
    public static HydrogenForm Normal { get; } = new("normal", OrthoParaHydrogen.NormalParaFraction);

    /// <summary>Para molecules only, as liquid that was stored long or left a catalyst.</summary>
    public static HydrogenForm Para { get; } = new("para", 1);

    /// <summary>In equilibrium at every temperature, as over a catalyst: heat capacities include the heat of conversion.</summary>
    public static HydrogenForm Equilibrium { get; } = new("equilibrium", null);

    /// <summary>Name of the form.</summary>
    public string Name { get; }

    /// <summary>Mole fraction of para molecules, 0 to 1; null for equilibrium, where it follows the temperature.</summary>
    public double? ParaFraction { get; }

    /// <summary>A share that does not change.</summary>
    /// <param name="paraFraction">Mole fraction of para molecules, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 1.</exception>
    public static HydrogenForm Frozen(double paraFraction) => new("frozen", Guard.InRange(paraFraction, 0, 1, "mole fraction"));

    /// <inheritdoc/>
    public override string ToString() => ParaFraction is { } fraction && Name == "frozen" ? $"frozen, {100 * fraction:0.##} % para" : Name;
}
