namespace CryoThermo.Substances;

/// <summary>One term of the ideal-gas part of a reduced Helmholtz energy over tau = reducing temperature / T. Immutable.</summary>
internal abstract record PublishedIdealGasTerm
{
    /// <summary>The term.</summary>
    public abstract double At(double tau);

    /// <summary>tau times the derivative of the term with respect to tau.</summary>
    public abstract double TauSlope(double tau);
}

/// <summary>n ln(tau).</summary>
internal sealed record LogarithmOfTau(double Coefficient) : PublishedIdealGasTerm
{
    public override double At(double tau) => Coefficient * Math.Log(tau);

    public override double TauSlope(double tau) => Coefficient;
}

/// <summary>n tau^t.</summary>
internal sealed record PowerOfTau(double Coefficient, double Exponent) : PublishedIdealGasTerm
{
    public override double At(double tau) => Coefficient * Math.Pow(tau, Exponent);

    public override double TauSlope(double tau) => Exponent * Coefficient * Math.Pow(tau, Exponent);
}

/// <summary>n tau ln(tau), which belongs to a heat capacity over 1/T.</summary>
internal sealed record TauTimesLogarithm(double Coefficient) : PublishedIdealGasTerm
{
    public override double At(double tau) => Coefficient * tau * Math.Log(tau);

    public override double TauSlope(double tau) => Coefficient * tau * (Math.Log(tau) + 1);
}

/// <summary>v ln(c + d exp(u tau)); u of either sign.</summary>
internal sealed record LogarithmOfExponential(double Weight, double Constant, double Factor, double Rate) : PublishedIdealGasTerm
{
    public override double At(double tau)
    {
        double x = Rate * tau;
        return x > 0
            ? Weight * (x + Math.Log(Factor + (Constant * Math.Exp(-x))))
            : Weight * Math.Log(Constant + (Factor * Math.Exp(x)));
    }

    public override double TauSlope(double tau)
    {
        double x = Rate * tau;
        return x > 0
            ? Weight * x * Factor / (Factor + (Constant * Math.Exp(-x)))
            : Weight * x * Factor * Math.Exp(x) / (Constant + (Factor * Math.Exp(x)));
    }
}

/// <summary>v ln(sinh(u tau)); u positive.</summary>
internal sealed record LogarithmOfSinh(double Weight, double Rate) : PublishedIdealGasTerm
{
    public override double At(double tau)
    {
        double x = Rate * tau;
        return Weight * (x + Math.Log((1 - Math.Exp(-2 * x)) / 2));
    }

    public override double TauSlope(double tau)
    {
        double x = Rate * tau;
        return Weight * x / Math.Tanh(x);
    }
}

/// <summary>v ln(cosh(u tau)); u positive.</summary>
internal sealed record LogarithmOfCosh(double Weight, double Rate) : PublishedIdealGasTerm
{
    public override double At(double tau)
    {
        double x = Rate * tau;
        return Weight * (x + Math.Log((1 + Math.Exp(-2 * x)) / 2));
    }

    public override double TauSlope(double tau)
    {
        double x = Rate * tau;
        return Weight * x * Math.Tanh(x);
    }
}
