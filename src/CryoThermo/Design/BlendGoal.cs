namespace CryoThermo.Design;

/// <summary>An objective and its weight. With several the weighted sum of the logarithms counts, so that units do not.</summary>
/// <param name="Objective">What is judged.</param>
/// <param name="Weight">Above zero.</param>
public sealed record BlendGoal(BlendObjective Objective, double Weight = 1);
