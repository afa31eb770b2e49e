// Yardstick: the residual Helmholtz energy of a long pure-fluid equation (32 density terms, 4 bells) with all its derivatives by tau and delta
// to second order. The second of the three ways is THE yardstick: one exponential for each term, powers of the density prepared, no vectors.
// One call takes (tau, delta) and gives six numbers; the logarithm and the powers are part of it.
#include "nitrogen_equation.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>

namespace {

using namespace helmholtz;

// Filled at run time, as from a data file: no coefficient is known to the compiler inside the kernels.
struct Equation {
    std::array<DensityTerm, DensityTerms> density;
    std::array<BellTerm, BellTerms> bells;
};

[[gnu::noinline]] Derivatives byPowers(const Equation& equation, double tau, double delta) {
    double value = 0, t = 0, d = 0, tt = 0, td = 0, dd = 0;
    for (const DensityTerm& e : equation.density) {
        const double h = e.temperatureExponent, c = e.decayExponent;
        double term = e.coefficient * std::pow(delta, static_cast<double>(e.densityExponent)) * std::pow(tau, h);
        double fall = 0;
        if (e.decayExponent > 0) {
            fall = std::pow(delta, c);
            term *= std::exp(-fall);
        }
        const double g = e.densityExponent - c * fall;
        value += term;
        t += term * h;
        d += term * g;
        tt += term * (h * (h - 1));
        td += term * (h * g);
        dd += term * (g * (g - 1) - c * c * fall);
    }
    for (const BellTerm& e : equation.bells) {
        const double u = delta - e.densityCenter, v = tau - e.temperatureCenter;
        const double eta = e.densitySharpness, beta = e.temperatureSharpness;
        const double term = e.coefficient * std::pow(delta, static_cast<double>(e.densityExponent)) * std::pow(tau, e.temperatureExponent)
            * std::exp(-eta * u * u - beta * v * v);
        const double g = e.densityExponent - 2 * eta * delta * u;
        const double h = e.temperatureExponent - 2 * beta * tau * v;
        value += term;
        t += term * h;
        d += term * g;
        tt += term * (h * (h - 1) - 2 * beta * tau * (tau + v));
        td += term * (h * g);
        dd += term * (g * (g - 1) - 2 * eta * delta * (delta + u));
    }
    return unscaled(value, t, d, tt, td, dd, tau, delta);
}

[[gnu::noinline]] Derivatives byExponentials(const Equation& equation, double tau, double delta) {
    const double lnTau = std::log(tau);
    double power[HighestDensityPower + 1], decay[HighestDensityPower + 1];
    power[0] = 1;
    for (int k = 1; k <= HighestDensityPower; k++) decay[k] = power[k] = power[k - 1] * delta;
    decay[0] = 0;

    double value = 0, t = 0, d = 0, tt = 0, td = 0, dd = 0;
    for (const DensityTerm& e : equation.density) {
        const double h = e.temperatureExponent, c = e.decayExponent;
        const double fall = decay[e.decayExponent];
        const double term = e.coefficient * power[e.densityExponent] * std::exp(h * lnTau - fall);
        const double g = e.densityExponent - c * fall;
        value += term;
        t += term * h;
        d += term * g;
        tt += term * (h * (h - 1));
        td += term * (h * g);
        dd += term * (g * (g - 1) - c * c * fall);
    }
    for (const BellTerm& e : equation.bells) {
        const double u = delta - e.densityCenter, v = tau - e.temperatureCenter;
        const double eta = e.densitySharpness, beta = e.temperatureSharpness;
        const double term = e.coefficient * power[e.densityExponent] * std::exp(e.temperatureExponent * lnTau - eta * u * u - beta * v * v);
        const double g = e.densityExponent - 2 * eta * delta * u;
        const double h = e.temperatureExponent - 2 * beta * tau * v;
        value += term;
        t += term * h;
        d += term * g;
        tt += term * (h * (h - 1) - 2 * beta * tau * (tau + v));
        td += term * (h * g);
        dd += term * (g * (g - 1) - 2 * eta * delta * (delta + u));
    }
    return unscaled(value, t, d, tt, td, dd, tau, delta);
}

// Times of 15 repeats of a loop over all states, ns for each call.
template <typename Body>
void report(const char* what, const std::array<State, States>& points, Body&& body) {
    constexpr int Repeats = 15, Sweeps = 4096;
    std::array<double, Repeats> times;
    double total = 0;
    for (double& time : times) {
        const auto start = std::chrono::steady_clock::now();
        total = 0;
        for (int sweep = 0; sweep < Sweeps; sweep++) {
            for (const State& state : points) total += body(state).sum();
        }
        const std::chrono::duration<double, std::nano> elapsed = std::chrono::steady_clock::now() - start;
        time = elapsed.count() / (Sweeps * States);
    }
    double checksum = 0;
    for (const State& state : points) checksum += body(state).sum();
    std::sort(times.begin(), times.end());
    // The timed sum is shown to be that of the states, so that no repeat can have been skipped.
    const bool same = std::fabs(total / Sweeps - checksum) < 1e-9 * std::fabs(checksum);
    std::printf("%-62s %8.1f ns   (%.1f to %.1f)   checksum %.12g%s\n", what, times[Repeats / 2], times.front(), times.back(), checksum,
        same ? "" : "   TIMED SUM DIFFERS");
}

int failures = 0;

void expect(double difference, double bound, const char* what) {
    if (std::fabs(difference) <= bound) return;
    std::printf("%s: off by %.2e, allowed %.2e\n", what, difference, bound);
    failures++;
}

double largest(const Derivatives& a, const Derivatives& b) {
    const auto difference = [](double x, double y) { return std::fabs(x - y) / (1 + std::fabs(x)); };
    return std::max({difference(a.value, b.value), difference(a.byTau, b.byTau), difference(a.byDelta, b.byDelta),
        difference(a.byTauTau, b.byTauTau), difference(a.byTauDelta, b.byTauDelta), difference(a.byDeltaDelta, b.byDeltaDelta)});
}

// Central differences of the value and of the first derivatives.
Derivatives byDifferences(const Equation& equation, double tau, double delta) {
    const double ht = 1e-5 * tau, hd = 1e-5 * delta;
    const Derivatives warmer = byPowers(equation, tau - ht, delta), colder = byPowers(equation, tau + ht, delta);
    const Derivatives thinner = byPowers(equation, tau, delta - hd), denser = byPowers(equation, tau, delta + hd);
    return {byPowers(equation, tau, delta).value, (colder.value - warmer.value) / (2 * ht), (denser.value - thinner.value) / (2 * hd),
        (colder.byTau - warmer.byTau) / (2 * ht), (denser.byTau - thinner.byTau) / (2 * hd), (denser.byDelta - thinner.byDelta) / (2 * hd)};
}

}  // namespace

int main() {
    const Equation equation{NitrogenDensityTerms, NitrogenBellTerms};
    const VectorEquation vectors;
    const auto points = states();

    for (const State& s : points) {
        const Derivatives reference = byPowers(equation, s.tau, s.delta);
        // Steps of 1e-5 in bells of sharpness 325: an error of the difference itself of a few 1e-7.
        expect(largest(byDifferences(equation, s.tau, s.delta), reference), 1e-6, "derivatives against central differences");
        expect(largest(byExponentials(equation, s.tau, s.delta), reference), 1e-12, "exponentials against powers");
        expect(largest(vectors.at(s.tau, s.delta), reference), 1e-12, "vectors against powers");
    }

    // At the published critical point the pressure is the critical one (printed to five digits) and does not change with density.
    const Derivatives critical = byPowers(equation, 1, 1);
    expect(CriticalDensity * GasConstant * CriticalTemperature * (1 + critical.byDelta) / CriticalPressure - 1, 1e-5, "critical pressure");
    expect(1 + 2 * critical.byDelta + critical.byDeltaDelta, 1e-5, "slope of the pressure at the critical point");

    report("36-term Helmholtz energy, pow for each term", points, [&](const State& s) { return byPowers(equation, s.tau, s.delta); });
    report("36-term Helmholtz energy, exp for each term (yardstick)", points, [&](const State& s) { return byExponentials(equation, s.tau, s.delta); });
    report("36-term Helmholtz energy, exp for each term, vectorised", points, [&](const State& s) { return vectors.at(s.tau, s.delta); });
    return failures == 0 ? 0 : 1;
}
