namespace CryoThermo.Insulation;

/// <summary>The answer to how far one must go for a wanted leak. Immutable and thread-safe.</summary>
/// <param name="IsReachable">Whether the wanted leak is met somewhere in the range searched.</param>
/// <param name="Value">Where; null where it is not met.</param>
/// <param name="Budget">The budget there, or the best in the range where it is not met.</param>
/// <param name="Explanation">What was found, and what alone stands in the way.</param>
/// <typeparam name="T">Kind of quantity asked for.</typeparam>
public sealed record HeatLeakAnswer<T>(bool IsReachable, T? Value, HeatLeakBudget Budget, string Explanation)
    where T : struct;
