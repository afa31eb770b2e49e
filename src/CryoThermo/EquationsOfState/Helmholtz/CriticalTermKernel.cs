using CryoThermo.Substances;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// One non-analytic term, n Delta^b delta psi, with its derivatives; Span, Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509, table 32.
/// </summary>
internal readonly struct CriticalTermKernel(CriticalTerm term)
{
    // At the critical point itself second derivatives of the term are infinite. The floor keeps them finite there and is
    // far below any Delta of a point that differs from it by a rounding error.
    private const double SmallestDistance = 1e-40;

    // exp(-60) is 1e-26: beyond, the term with its derivatives is below the rounding error of the others.
    private const double LargestExponent = 60;

    private readonly double coefficient = term.Coefficient;
    private readonly double distanceExponent = term.DistanceExponent;
    private readonly double exponent = term.Exponent;
    private readonly double curveExponent = 0.5 / term.CurveExponent;
    private readonly double curveWeight = term.CurveWeight;
    private readonly double distanceWeight = term.DistanceWeight;
    private readonly double densitySharpness = term.DensitySharpness;
    private readonly double temperatureSharpness = term.TemperatureSharpness;

    /// <summary>Value and derivatives, multiplied as <see cref="ResidualDerivatives"/> says.</summary>
    public ResidualDerivatives At(double tau, double delta)
    {
        double x = delta - 1;
        double y = x * x;
        double u = tau - 1;
        double decay = (densitySharpness * y) + (temperatureSharpness * u * u);
        if (decay > LargestExponent)
        {
            return default;
        }

        // With q = 1/(2 beta): x^2 y^(q-2) = y^(q-1), which stays finite at x = 0.
        double yq = Math.Pow(y, curveExponent - 1);
        double ya = Math.Pow(y, distanceExponent - 1);
        double theta = (curveWeight * yq * y) - u;
        double thetaByDelta = 2 * curveWeight * curveExponent * x * yq;
        double thetaByDelta2 = 2 * curveWeight * curveExponent * ((2 * curveExponent) - 1) * yq;
        double distance = Math.Max((theta * theta) + (distanceWeight * ya * y), SmallestDistance);
        double distanceByDelta = (2 * theta * thetaByDelta) + (2 * distanceWeight * distanceExponent * x * ya);
        double distanceByDelta2 = (2 * thetaByDelta * thetaByDelta) + (2 * theta * thetaByDelta2)
            + (2 * distanceWeight * distanceExponent * ((2 * distanceExponent) - 1) * ya);

        // P = Delta^b and its derivatives; dDelta/dtau = -2 theta, d2Delta/dtau2 = 2, d2Delta/dtau ddelta = -2 dtheta/ddelta.
        double power = Math.Pow(distance, exponent);
        double first = exponent * power / distance;
        double second = (exponent - 1) * first / distance;
        double powerByDelta = first * distanceByDelta;
        double powerByDelta2 = (first * distanceByDelta2) + (second * distanceByDelta * distanceByDelta);
        double powerByTau = -2 * theta * first;
        double powerByTau2 = (2 * first) + (4 * theta * theta * second);
        double powerByTauDelta = (-2 * thetaByDelta * first) - (2 * theta * second * distanceByDelta);

        double psi = Math.Exp(-decay);
        double psiByDelta = -2 * densitySharpness * x * psi;
        double psiByDelta2 = ((4 * densitySharpness * densitySharpness * y) - (2 * densitySharpness)) * psi;
        double psiByTau = -2 * temperatureSharpness * u * psi;
        double psiByTau2 = ((4 * temperatureSharpness * temperatureSharpness * u * u) - (2 * temperatureSharpness)) * psi;
        double psiByTauDelta = 4 * densitySharpness * temperatureSharpness * x * u * psi;

        // f = delta psi
        double f = delta * psi;
        double fByDelta = psi + (delta * psiByDelta);
        double fByDelta2 = (2 * psiByDelta) + (delta * psiByDelta2);
        double fByTau = delta * psiByTau;
        double fByTau2 = delta * psiByTau2;
        double fByTauDelta = psiByTau + (delta * psiByTauDelta);

        return new(
            coefficient * power * f,
            coefficient * tau * ((powerByTau * f) + (power * fByTau)),
            coefficient * delta * ((powerByDelta * f) + (power * fByDelta)),
            coefficient * tau * tau * ((powerByTau2 * f) + (2 * powerByTau * fByTau) + (power * fByTau2)),
            coefficient * tau * delta * ((powerByTauDelta * f) + (powerByTau * fByDelta) + (powerByDelta * fByTau) + (power * fByTauDelta)),
            coefficient * delta * delta * ((powerByDelta2 * f) + (2 * powerByDelta * fByDelta) + (power * fByDelta2)));
    }
}
