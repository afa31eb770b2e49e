using System.Reflection;
using ArchUnitNET.Loader;
using CryoThermo.Diagnostics;
using Architecture = ArchUnitNET.Domain.Architecture;
using Type = System.Type;

namespace CryoThermo.Tests;

public sealed class ArchitectureTests
{
    private static readonly Assembly Library = typeof(Source).Assembly;
    private static readonly Lazy<Architecture> Loaded = new(static () => new ArchLoader().LoadAssemblies(Library).Build());

    /// <summary>Public classes that are open to inheritance on purpose, by full name, each with its reason beside it.</summary>
    private static readonly string[] OpenToInheritance =
    [
        // The kinds of heat-capacity term; its constructor is private protected, so only the library adds kinds.
        "CryoThermo.Substances.BinaryPair",
        "CryoThermo.Substances.HeatCapacityTerm",
    ];

    [Fact]
    public void EachLayerUsesOnlyThoseBeforeIt()
    {
        LayerRule.Dependency[] dependencies = [.. Loaded.Value.Types.SelectMany(static type => type.Dependencies.Select(d =>
            new LayerRule.Dependency(type.FullName, Space(type), d.Target.FullName, Space(d.Target))))];

        // Were the dependencies read at all? Equilibrium's isobar table uses its own enumeration of phases.
        Assert.Contains(dependencies, static d => d.Origin.EndsWith(".IsobarTable", StringComparison.Ordinal)
            && d.Target.EndsWith(".PhaseRegion", StringComparison.Ordinal));
        Assert.Empty(LayerRule.Violations(dependencies));
    }

    [Fact]
    public void EachNamespaceOfTheLibraryIsInAKnownLayer() => Assert.Empty(Unknown(Library.GetTypes()));

    [Fact]
    public void EachPublicTypeIsInAKnownLayer() =>
        Assert.DoesNotContain(Library.GetExportedTypes(), static type => LayerRule.LayerOf(type.Namespace ?? "") is null);

    [Fact]
    public void PublicClassesAreClosedToInheritance() => Assert.Equal(OpenToInheritance.Order(), Open(Library.GetExportedTypes()).Order());

    [Fact]
    public void ADependencyOnALaterLayerIsFound()
    {
        string[] expected =
        [
            "CryoThermo.Equilibrium.Flash (Equilibrium) uses CryoThermo.State (CryoThermo)",
            "CryoThermo.Safety.Circuit (Safety) uses CryoThermo.Coolers.Cooler (Coolers)",
            "CryoThermo.State (CryoThermo) uses CryoThermo.Fitting.PairFit (Fitting)",
            "Namespace CryoThermo.Utilities is in no known layer; the layers are listed in LayerRule. (Parameter 'space')",
        ];

        Assert.Equal(
            expected,
            LayerRule.Violations(
            [
                Uses("CryoThermo.Equilibrium", "Flash", "CryoThermo", "State"),
                Uses("CryoThermo.Safety", "Circuit", "CryoThermo.Coolers", "Cooler"),
                Uses("CryoThermo", "State", "CryoThermo.Fitting", "PairFit"),
                Uses("CryoThermo.Utilities", "Helper", "CryoThermo.Numerics", "Root"),

                // Allowed: an earlier layer, the own layer and its sub-namespaces, another library.
                Uses("CryoThermo", "State", "CryoThermo.Equilibrium", "Flash"),
                Uses("CryoThermo.EquationsOfState", "Kernel", "CryoThermo.EquationsOfState.Cubic", "Root"),
                Uses("CryoThermo.Numerics", "Root", "System", "Math"),
            ]));
    }

    [Fact]
    public void AnUnknownNamespaceIsFound()
    {
        Assert.Throws<ArgumentException>(static () => LayerRule.LayerOf("CryoThermo.Utilities"));
        Assert.Throws<ArgumentException>(static () => LayerRule.LayerOf("CryoThermo.CryoThermo"));
        Assert.Null(LayerRule.LayerOf("CryoThermodynamics"));
        Assert.Equal("EquationsOfState", LayerRule.LayerOf("CryoThermo.EquationsOfState.Helmholtz"));

        // This test project's own namespace is in no layer of the library.
        Assert.Equal(["CryoThermo.Tests"], Unknown([typeof(ArchitectureTests), typeof(Source), typeof(string)]));
    }

    [Fact]
    public void AClassOpenToInheritanceIsFound() =>
        Assert.Equal(
            [typeof(OpenClass).FullName!, typeof(OpenAbstractClass).FullName!],
            Open([typeof(OpenClass), typeof(OpenAbstractClass), typeof(ArchitectureTests), typeof(LayerRule), typeof(int), typeof(DayOfWeek), typeof(IDisposable), typeof(Action)]));

    private static LayerRule.Dependency Uses(string originNamespace, string origin, string targetNamespace, string target) =>
        new($"{originNamespace}.{origin}", originNamespace, $"{targetNamespace}.{target}", targetNamespace);

    // Nested types and compiler-made ones carry the namespace of the type around them.
    private static string Space(ArchUnitNET.Domain.IType type) => type.Namespace?.FullName ?? "";

    private static string[] Unknown(IEnumerable<Type> types) =>
        [.. types.Select(static type => type.Namespace ?? "").Distinct().Where(static space => Record.Exception(() => LayerRule.LayerOf(space)) is not null)];

    private static string[] Open(IEnumerable<Type> types) =>
        [.. types.Where(static type => type is { IsClass: true, IsSealed: false }).Select(static type => type.FullName!)];

#pragma warning disable CA1812, CA1852, MA0053 // Stand-ins that break the rule on purpose.
    private class OpenClass;

    private abstract class OpenAbstractClass;
#pragma warning restore CA1812, CA1852, MA0053
}
