namespace CryoThermo.Diagnostics;

/// <summary>A calculation did not converge. Carries its inputs, the residual reached and what to try.</summary>
public sealed class ConvergenceException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="calculation">What was being computed, for example "bubble point".</param>
    /// <param name="inputs">The inputs, with units.</param>
    /// <param name="residual">The residual reached, dimensionless; <see cref="double.NaN"/> is not allowed, use infinity when none was reached.</param>
    /// <param name="advice">What to try.</param>
    public ConvergenceException(string calculation, string inputs, double residual, string advice)
        : base($"{calculation} did not converge for {inputs} (residual {residual:G3}). {advice}")
    {
        Calculation = calculation;
        Inputs = inputs;
        Residual = residual;
        Advice = advice;
    }

    /// <summary>What was being computed.</summary>
    public string Calculation { get; }

    /// <summary>The inputs, with units.</summary>
    public string Inputs { get; }

    /// <summary>The residual reached, dimensionless.</summary>
    public double Residual { get; }

    /// <summary>What to try.</summary>
    public string Advice { get; }
}
