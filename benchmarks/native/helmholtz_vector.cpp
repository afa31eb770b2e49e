// The long pure-fluid equation with the compiler's vectors over the terms: same formulas as in helmholtz.cpp, terms laid out by field.
#include "nitrogen_equation.hpp"

#include <cmath>

#if defined(__GNUC__) && !defined(__clang__) && defined(__GLIBC__) && defined(__x86_64__)
// glibc has vector exponentials (within 4 units in the last place) but tells the compiler only under -ffast-math, which we do not want.
extern "C" __attribute__((simd("notinbranch"))) double exp(double) noexcept;
#endif

namespace helmholtz {

VectorEquation::VectorEquation() {
    for (int i = 0; i < DensityTerms; i++) {
        const DensityTerm& term = NitrogenDensityTerms[i];
        density_.coefficient[i] = term.coefficient;
        density_.temperatureExponent[i] = term.temperatureExponent;
        density_.densityExponent[i] = density_.densityPower[i] = term.densityExponent;
        density_.decayExponent[i] = density_.decayPower[i] = term.decayExponent;
    }
    for (int i = 0; i < BellTerms; i++) {
        const BellTerm& term = NitrogenBellTerms[i];
        bell_.coefficient[i] = term.coefficient;
        bell_.temperatureExponent[i] = term.temperatureExponent;
        bell_.densityExponent[i] = term.densityExponent;
        bell_.densitySharpness[i] = term.densitySharpness;
        bell_.densityCenter[i] = term.densityCenter;
        bell_.temperatureSharpness[i] = term.temperatureSharpness;
        bell_.temperatureCenter[i] = term.temperatureCenter;
    }
}

[[gnu::noinline]] Derivatives VectorEquation::at(double tau, double delta) const {
    const double lnTau = std::log(tau);
    double power[HighestDensityPower + 1], decay[HighestDensityPower + 1];
    power[0] = 1;
    for (int k = 1; k <= HighestDensityPower; k++) decay[k] = power[k] = power[k - 1] * delta;
    decay[0] = 0;

    double value = 0, t = 0, d = 0, tt = 0, td = 0, dd = 0;
#pragma omp simd reduction(+ : value, t, d, tt, td, dd)
    for (int i = 0; i < DensityTerms; i++) {
        const double fall = decay[density_.decayPower[i]];
        const double c = density_.decayExponent[i];
        const double h = density_.temperatureExponent[i];
        const double term = density_.coefficient[i] * power[density_.densityPower[i]] * exp(h * lnTau - fall);
        const double g = density_.densityExponent[i] - c * fall;
        value += term;
        t += term * h;
        d += term * g;
        tt += term * (h * (h - 1));
        td += term * (h * g);
        dd += term * (g * (g - 1) - c * c * fall);
    }

    const double lnDelta = std::log(delta);
#pragma omp simd reduction(+ : value, t, d, tt, td, dd)
    for (int i = 0; i < BellTerms; i++) {
        const double u = delta - bell_.densityCenter[i], v = tau - bell_.temperatureCenter[i];
        const double eta = bell_.densitySharpness[i], beta = bell_.temperatureSharpness[i];
        const double term = bell_.coefficient[i]
            * exp(bell_.temperatureExponent[i] * lnTau + bell_.densityExponent[i] * lnDelta - eta * u * u - beta * v * v);
        const double g = bell_.densityExponent[i] - 2 * eta * delta * u;
        const double h = bell_.temperatureExponent[i] - 2 * beta * tau * v;
        value += term;
        t += term * h;
        d += term * g;
        tt += term * (h * (h - 1) - 2 * beta * tau * (tau + v));
        td += term * (h * g);
        dd += term * (g * (g - 1) - 2 * eta * delta * (delta + u));
    }
    return unscaled(value, t, d, tt, td, dd, tau, delta);
}

}  // namespace helmholtz
