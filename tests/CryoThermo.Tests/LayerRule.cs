namespace CryoThermo.Tests;

/// <summary>
/// The layers of the library, lowest first: a namespace may use its own layer and those before it. The root namespace
/// itself is a layer; a sub-namespace belongs to the layer of its first part.
/// </summary>
internal static class LayerRule
{
    public const string Root = "CryoThermo";

    public static readonly IReadOnlyList<string> Order =
    [
        "Diagnostics", "Numerics", "Substances", "IdealGas", "EquationsOfState", "Transport", "Equilibrium",
        Root,
        "Fitting", "Materials", "Flow", "HeatTransfer", "Insulation", "Safety", "Machines", "Coolers", "Operation", "Design", "Liquefaction",
    ];

    /// <summary>The layer of a namespace; null for a namespace outside the library.</summary>
    /// <exception cref="ArgumentException">The namespace is the library's, but in no known layer.</exception>
    public static string? LayerOf(string space)
    {
        if (space == Root)
        {
            return Root;
        }

        if (!space.StartsWith(Root + ".", StringComparison.Ordinal))
        {
            return null;
        }

        string layer = space.Split('.')[1];
        return layer != Root && Order.Contains(layer)
            ? layer
            : throw new ArgumentException($"Namespace {space} is in no known layer; the layers are listed in {nameof(LayerRule)}.", nameof(space));
    }

    /// <summary>One message for each dependency that points to a later layer, or from or to an unknown one.</summary>
    public static IReadOnlyList<string> Violations(IEnumerable<Dependency> dependencies)
    {
        var violations = new SortedSet<string>(StringComparer.Ordinal);
        foreach (Dependency dependency in dependencies)
        {
            try
            {
                if (LayerOf(dependency.OriginNamespace) is { } origin && LayerOf(dependency.TargetNamespace) is { } target && Rank(target) > Rank(origin))
                {
                    violations.Add($"{dependency.Origin} ({origin}) uses {dependency.Target} ({target})");
                }
            }
            catch (ArgumentException unknown)
            {
                violations.Add(unknown.Message);
            }
        }

        return [.. violations];
    }

    private static int Rank(string layer) => Array.IndexOf([.. Order], layer);

    /// <summary>One type uses another.</summary>
    internal sealed record Dependency(string Origin, string OriginNamespace, string Target, string TargetNamespace);
}
