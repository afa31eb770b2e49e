// Yardstick: ln of fugacity over mole fraction of five components at (T, rho, x) under the multi-fluid model of ISO 20765-2, 142 terms: reducing
// functions with their derivatives by amounts, every component's residual, every departure function, and what follows from them for each
// component. One exponential for each term with ln tau, ln delta and the powers of delta prepared, no vectors, only the derivatives needed.
// O. Kunz, W. Wagner, J. Chem. Eng. Data 57 (2012) 3032-3091.
#include "multi_fluid_equations.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>

namespace {

using namespace multi_fluid;
using Vector = std::array<double, Components>;

struct State {
    double temperature, density;
    Vector x;
};

// alpha of a function with its derivatives by ln delta and ln tau.
struct Value {
    double alpha = 0, byDelta = 0, byTau = 0;
};

// Y(x) with n d(ln Y)/dn_i. What does not depend on composition is prepared.
class ReducingFunction {
public:
    ReducingFunction(const Vector& pure, bool isVolume) : pure_(pure) {
        for (const Pair& p : Pairs) {
            const double beta = isVolume ? p.volumeBeta : p.temperatureBeta;
            const double gamma = isVolume ? p.volumeGamma : p.temperatureGamma;
            const double a = pure[p.first], b = pure[p.second];
            const double mean = isVolume ? std::pow(std::cbrt(a) + std::cbrt(b), 3) / 8 : std::sqrt(a * b);
            parts_[count_++] = {p.first, p.second, 2 * beta * gamma * mean, beta * beta};
        }
    }

    double at(const Vector& x, Vector& byAmount) const {
        double sum = 0;
        for (int i = 0; i < Components; i++) {
            byAmount[i] = 2 * x[i] * pure_[i];
            sum += x[i] * x[i] * pure_[i];
        }
        for (int k = 0; k < count_; k++) {
            const Part& part = parts_[k];
            const double a = x[part.first], c = x[part.second], b = part.squaredBeta;
            const double q = b * a + c;
            if (q <= 0) continue;
            const double scale = part.strength / q;
            sum += scale * a * c * (a + c);
            const double second = scale / q;
            byAmount[part.first] += second * c * (b * a * a + 2 * a * c + c * c);
            byAmount[part.second] += second * a * (b * a * a + 2 * b * a * c + c * c);
        }
        const double inverse = 1 / sum;
        for (double& value : byAmount) value = value * inverse - 2;
        return sum;
    }

private:
    struct Part {
        int first, second;
        double strength, squaredBeta;
    };
    Vector pure_;
    std::array<Part, Components*(Components - 1) / 2> parts_{};
    int count_ = 0;
};

class Mixture {
public:
    Mixture()
        : volume_({1 / ReducingDensity[0], 1 / ReducingDensity[1], 1 / ReducingDensity[2], 1 / ReducingDensity[3], 1 / ReducingDensity[4]}, true),
          temperature_({ReducingTemperature[0], ReducingTemperature[1], ReducingTemperature[2], ReducingTemperature[3], ReducingTemperature[4]}, false) {}

    // ln(f_i/(x_i 1 Pa)); returns the pressure, Pa.
    [[gnu::noinline]] double lnFugacity(double temperature, double density, const Vector& x, Vector& result) const {
        Vector r, q;
        const double volume = volume_.at(x, r);
        const double reducing = temperature_.at(x, q);
        const double tau = reducing / temperature, delta = density * volume;
        const double lnTau = std::log(tau), lnDelta = std::log(delta);
        std::array<double, 8> decay{0, delta};
        for (int k = 2; k < 8; k++) decay[k] = decay[k - 1] * delta;

        Value sum;
        Vector own;
        for (int i = 0; i < Components; i++) {
            const Value value = at(residuals_[i], lnTau, lnDelta, delta, decay);
            own[i] = value.alpha;
            add(sum, x[i], value);
        }
        std::array<double, 8> departure;
        for (std::size_t k = 0; k < departures_.size(); k++) {
            double weight = 0;
            for (const Pair& p : pairs_) {
                if (p.departure == static_cast<int>(k)) weight += p.weight * x[p.first] * x[p.second];
            }
            const Value value = at(departures_[k], lnTau, lnDelta, delta, decay);
            departure[k] = value.alpha;
            add(sum, weight, value);
        }
        for (const Pair& p : pairs_) {
            if (p.departure < 0) continue;
            const double value = p.weight * departure[p.departure];
            own[p.first] += x[p.second] * value;
            own[p.second] += x[p.first] * value;
        }
        double mean = 0;
        for (int i = 0; i < Components; i++) mean += x[i] * own[i];
        const double ideal = density * GasConstant * temperature;
        const double shared = sum.alpha - mean + std::log(ideal);
        for (int i = 0; i < Components; i++) result[i] = shared + own[i] + sum.byDelta * (1 + r[i]) + sum.byTau * q[i];
        return ideal * (1 + sum.byDelta);
    }

    // n alpha(T, n/V, x) with V = 1/density at the start: the definition, written with pow, for the check.
    double total(double temperature, double v, const Vector& moles) const {
        double n = 0;
        for (double m : moles) n += m;
        Vector x, unused;
        for (int i = 0; i < Components; i++) x[i] = moles[i] / n;
        const double tau = temperature_.at(x, unused) / temperature, delta = n / v * volume_.at(x, unused);
        double sum = 0;
        for (int i = 0; i < Components; i++) sum += x[i] * byPowers(Residuals[i], tau, delta);
        for (const Pair& p : Pairs) {
            if (p.departure >= 0) sum += x[p.first] * x[p.second] * p.weight * byPowers(Departures[p.departure], tau, delta);
        }
        return n * sum;
    }

private:
    static void add(Value& sum, double weight, const Value& value) {
        sum.alpha += weight * value.alpha;
        sum.byDelta += weight * value.byDelta;
        sum.byTau += weight * value.byTau;
    }

    static Value at(const Function& function, double lnTau, double lnDelta, double delta, const std::array<double, 8>& decay) {
        Value sum;
        for (const DensityTerm& e : function.density) {
            const double fall = decay[e.decayExponent];
            const double term = e.coefficient * std::exp(e.temperatureExponent * lnTau + e.densityExponent * lnDelta - fall);
            sum.alpha += term;
            sum.byTau += term * e.temperatureExponent;
            sum.byDelta += term * (e.densityExponent - e.decayExponent * fall);
        }
        for (const SkewedTerm& e : function.skewed) {
            const double u = delta - e.densityCenter;
            const double term = e.coefficient
                * std::exp(e.temperatureExponent * lnTau + e.densityExponent * lnDelta - e.densitySharpness * u * u - e.densityDecay * (delta - e.decayCenter));
            sum.alpha += term;
            sum.byTau += term * e.temperatureExponent;
            sum.byDelta += term * (e.densityExponent - delta * (2 * e.densitySharpness * u + e.densityDecay));
        }
        return sum;
    }

    static double byPowers(const Function& function, double tau, double delta) {
        double sum = 0;
        for (const DensityTerm& e : function.density) {
            const double term = e.coefficient * std::pow(tau, e.temperatureExponent) * std::pow(delta, e.densityExponent);
            sum += e.decayExponent == 0 ? term : term * std::exp(-std::pow(delta, e.decayExponent));
        }
        for (const SkewedTerm& e : function.skewed) {
            const double u = delta - e.densityCenter;
            sum += e.coefficient * std::pow(tau, e.temperatureExponent) * std::pow(delta, e.densityExponent)
                * std::exp(-e.densitySharpness * u * u - e.densityDecay * (delta - e.decayCenter));
        }
        return sum;
    }

    // Copied at run time, as from a data file: no coefficient is known to the compiler inside the kernel.
    std::vector<Function> residuals_ = Residuals, departures_ = Departures;
    std::vector<Pair> pairs_ = Pairs;
    ReducingFunction volume_, temperature_;
};

constexpr int States = 256;

// Compositions and temperatures as in the cubic yardstick, densities from gas to dense liquid.
std::array<State, States> states() {
    std::array<State, States> result;
    unsigned random = 20;
    const auto next = [&random] {
        random = random * 1664525u + 1013904223u;  // a linear congruential generator: the same numbers on every machine
        return random / 4294967296.0;
    };
    for (int k = 0; k < States; k++) {
        const Vector middle{0.30, 0.30, 0.15, 0.15, 0.10};
        double sum = 0;
        for (int i = 0; i < Components; i++) sum += result[k].x[i] = middle[i] * (0.8 + 0.4 * next());
        for (double& fraction : result[k].x) fraction /= sum;
        result[k].temperature = 120 + 180 * next();
        result[k].density = 10 + 17990.0 * ((37 * k) % States) / (States - 1);
    }
    return result;
}

int failures = 0;

void expect(double difference, double bound, const char* what) {
    if (std::fabs(difference) <= bound) return;
    std::printf("%s: off by %.2e, allowed %.2e\n", what, difference, bound);
    failures++;
}

}  // namespace

int main() {
    const Mixture mixture;
    const auto points = states();

    // 0.05 N2, 0.35 CH4, 0.35 C2H6, 0.25 C3H8, computed by a separate program while the data were prepared: pressure and ln phi.
    struct Check {
        double temperature, pressure, density;
        std::array<double, 4> lnPhi;
    };
    const Check checks[] = {
        {300, 2e6, 920.6946650516172, {0.0899153602517343, 6.283782384550185e-05, -0.15564256062045773, -0.29230262247302957}},
        {150, 5e6, 19828.50816011541, {1.4272657688780224, -1.3665694153089674, -6.054394259464422, -9.363069823978579}},
    };
    for (const Check& check : checks) {
        Vector result;
        const double pressure = mixture.lnFugacity(check.temperature, check.density, {0.05, 0.35, 0.35, 0.25, 0}, result);
        expect(pressure / check.pressure - 1, 1e-11, "pressure of a computed state");
        for (int i = 0; i < 4; i++) expect(result[i] - std::log(check.pressure) - check.lnPhi[i], 1e-11, "ln phi of a computed state");
    }

    // ln(f_i/x_i) = ln(rho R T) + d(n alpha)/dn_i at constant T and V, by central differences.
    for (const State& s : points) {
        Vector result;
        mixture.lnFugacity(s.temperature, s.density, s.x, result);
        for (int i = 0; i < Components; i++) {
            const double h = 1e-4 * s.x[i];
            Vector more = s.x, less = s.x;
            more[i] += h;
            less[i] -= h;
            const double slope = (mixture.total(s.temperature, 1 / s.density, more) - mixture.total(s.temperature, 1 / s.density, less)) / (2 * h);
            // Third derivatives leave some 1e-8 of numbers of the order of ten, rounding of n alpha some 1e-10.
            expect((result[i] - std::log(s.density * GasConstant * s.temperature) - slope) / (1 + std::fabs(slope)), 1e-6, "ln f against its definition");
        }
    }

    constexpr int Repeats = 15, Sweeps = 128;
    std::array<double, Repeats> times;
    double checksum = 0;
    for (double& time : times) {
        const auto start = std::chrono::steady_clock::now();
        checksum = 0;
        for (int sweep = 0; sweep < Sweeps; sweep++) {
            for (const State& s : points) {
                Vector result;
                mixture.lnFugacity(s.temperature, s.density, s.x, result);
                checksum += result[0] + result[1] + result[2] + result[3] + result[4];
            }
        }
        const std::chrono::duration<double, std::nano> elapsed = std::chrono::steady_clock::now() - start;
        time = elapsed.count() / (Sweeps * States);
    }
    std::sort(times.begin(), times.end());
    std::printf("%-62s %8.1f ns   (%.1f to %.1f)   checksum %.12g\n", "ln f, 5 components, 142 terms, exp for each term (yardstick)",
        times[Repeats / 2], times.front(), times.back(), checksum / Sweeps);
    return failures == 0 ? 0 : 1;
}
