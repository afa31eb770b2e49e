// Yardstick: ln phi of every component of a five-component mixture at (T, p, x) with the Peng-Robinson equation.
// D.-Y. Peng and D. B. Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59-64, with its van der Waals mixing rules.
// What depends on the temperature alone is prepared once a temperature, as a flash does it; both costs are told.
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace {

constexpr int N = 5;
constexpr double GasConstant = 8.31446261815324;  // J/(mol K), exact by definition of the SI
constexpr double Sqrt2 = std::numbers::sqrt2;

// The pure number constants of the equation, to the digits that follow from its critical conditions.
constexpr double OmegaA = 0.457235528921;
constexpr double OmegaB = 0.0777960739039;

using Vector = std::array<double, N>;

struct Substance {
    double criticalTemperature;  // K
    double criticalPressure;     // Pa
    double acentricFactor;
};

enum class Root { Liquid, Vapor, Stable };

// Equation-of-state parameters that depend on nothing but the mixture's components.
class Mixture {
public:
    Mixture(const std::array<Substance, N>& substances, const std::array<Vector, N>& interaction) : substances_(substances) {
        for (int i = 0; i < N; i++) {
            const auto& s = substances[i];
            sqrtCritical_[i] = std::sqrt(OmegaA) * GasConstant * s.criticalTemperature / std::sqrt(s.criticalPressure);
            slope_[i] = 0.37464 + s.acentricFactor * (1.54226 - 0.26992 * s.acentricFactor);
            covolume_[i] = OmegaB * GasConstant * s.criticalTemperature / s.criticalPressure;
            for (int j = 0; j < N; j++) oneMinusK_[i][j] = 1 - interaction[i][j];
        }
    }

    // sqrt(a_i(T)), Pa^0.5 m3/mol.
    Vector sqrtAttraction(double temperature) const {
        Vector result;
        for (int i = 0; i < N; i++) {
            result[i] = sqrtCritical_[i] * (1 + slope_[i] * (1 - std::sqrt(temperature / substances_[i].criticalTemperature)));
        }
        return result;
    }

    // Returns the compressibility factor of the root taken.
    double lnPhi(double temperature, double pressure, const Vector& sqrtA, const Vector& x, Root wanted, Vector& result) const {
        Vector weighted;
        double covolume = 0;
        for (int i = 0; i < N; i++) {
            weighted[i] = x[i] * sqrtA[i];
            covolume += x[i] * covolume_[i];
        }

        Vector sums;  // sum_j x_j a_ij
        double attraction = 0;
        for (int i = 0; i < N; i++) {
            double sum = 0;
            for (int j = 0; j < N; j++) sum += weighted[j] * oneMinusK_[i][j];
            sums[i] = sqrtA[i] * sum;
            attraction += x[i] * sums[i];
        }

        const double perRT = 1 / (GasConstant * temperature);
        const double A = attraction * pressure * perRT * perRT;
        const double B = covolume * pressure * perRT;
        const double Z = compressibility(A, B, wanted);
        const double logarithm = std::log((Z + (1 + Sqrt2) * B) / (Z + (1 - Sqrt2) * B));
        const double lnZMinusB = std::log(Z - B);
        const double perCovolume = 1 / covolume;
        const double front = A / (2 * Sqrt2 * B) * logarithm;
        const double twoPerAttraction = 2 / attraction;
        for (int i = 0; i < N; i++) {
            const double share = covolume_[i] * perCovolume;
            result[i] = share * (Z - 1) - lnZMinusB - front * (twoPerAttraction * sums[i] - share);
        }
        return Z;
    }

private:
    // Z3 + c2 Z2 + c1 Z + c0 = 0: closed form, then Newton, because the trigonometric form loses digits at low pressure.
    static double compressibility(double A, double B, Root wanted) {
        const double c2 = B - 1;
        const double c1 = A - B * (2 + 3 * B);
        const double c0 = -B * (A - B * (1 + B));
        const double third = c2 / 3;
        const double q = third * third - c1 / 3;
        const double r = third * third * third - third * c1 / 2 + c0 / 2;
        const double discriminant = r * r - q * q * q;
        if (discriminant >= 0) {
            const double s = -std::copysign(std::cbrt(std::fabs(r) + std::sqrt(discriminant)), r);
            return polish(s + (s == 0 ? 0 : q / s) - third, B, c2, c1, c0);
        }

        const double sqrtQ = std::sqrt(q);
        const double angle = std::acos(std::clamp(r / (q * sqrtQ), -1.0, 1.0)) / 3;
        // The other roots follow from one cosine: cos(u + 2 pi/3) = -cos(u)/2 - sin(u) sqrt(3)/2, and u lies within [0, pi/3].
        const double cosine = std::cos(angle);
        const double largest = sqrtQ * (cosine + std::sqrt(3 * (1 - cosine * cosine))) - third;
        if (wanted == Root::Vapor) return polish(largest, B, c2, c1, c0);
        const double smallest = -2 * sqrtQ * cosine - third;
        if (smallest <= B) return polish(largest, B, c2, c1, c0);
        const double liquid = polish(smallest, B, c2, c1, c0);
        if (wanted == Root::Liquid) return liquid;
        const double vapor = polish(largest, B, c2, c1, c0);
        return gibbs(liquid, A, B) < gibbs(vapor, A, B) ? liquid : vapor;
    }

    static double polish(double z, double B, double c2, double c1, double c0) {
        for (int iteration = 0; iteration < 8; iteration++) {
            const double value = c0 + z * (c1 + z * (c2 + z));
            const double step = value / (c1 + z * (2 * c2 + 3 * z));
            const double next = z - step;
            if (!(next > B)) return z;
            z = next;

            // Newton doubles the digits: a step of 1e-8 leaves an error near 1e-16.
            if (std::fabs(step) <= 1e-8 * z) break;
        }
        return z;
    }

    // Residual Gibbs energy over RT, less what both roots share.
    static double gibbs(double Z, double A, double B) {
        return Z - std::log(Z - B) - A / (2 * Sqrt2 * B) * std::log((Z + (1 + Sqrt2) * B) / (Z + (1 - Sqrt2) * B));
    }

    std::array<Substance, N> substances_;
    Vector sqrtCritical_{};
    Vector slope_{};
    Vector covolume_{};
    std::array<Vector, N> oneMinusK_{};
};

struct Timing {
    double nanoseconds;
    double checksum;
};

// The least of several runs: what the code costs when nothing else disturbs it.
template <class Body>
Timing measure(int calls, Body body) {
    Timing best{1e300, 0};
    for (int run = 0; run < 9; run++) {
        const auto start = std::chrono::steady_clock::now();
        double checksum = 0;
        for (int call = 0; call < calls; call++) checksum += body(call);
        const std::chrono::duration<double, std::nano> elapsed = std::chrono::steady_clock::now() - start;
        best.nanoseconds = std::min(best.nanoseconds, elapsed.count() / calls);
        best.checksum = checksum;
    }
    return best;
}

// Largest difference between ln phi and the derivative d(n g_r)/dn_i by finite differences: the formula checked by its definition.
double checkByDifferences(const Mixture& mixture, double temperature, double pressure, const Vector& x, Root root) {
    const Vector sqrtA = mixture.sqrtAttraction(temperature);
    const auto total = [&](const Vector& moles) {
        double n = 0;
        for (double m : moles) n += m;
        Vector fractions, lnPhi;
        for (int i = 0; i < N; i++) fractions[i] = moles[i] / n;
        mixture.lnPhi(temperature, pressure, sqrtA, fractions, root, lnPhi);
        double sum = 0;
        for (int i = 0; i < N; i++) sum += moles[i] * lnPhi[i];
        return sum;
    };
    Vector lnPhi;
    mixture.lnPhi(temperature, pressure, sqrtA, x, root, lnPhi);
    double worst = 0;
    for (int i = 0; i < N; i++) {
        const double h = 1e-5;
        Vector more = x, less = x;
        more[i] += h;
        less[i] -= h;
        worst = std::max(worst, std::fabs((total(more) - total(less)) / (2 * h) - lnPhi[i]));
    }
    return worst;
}

}  // namespace

int main() {
    // Nitrogen, methane, ethane, propane, isobutane: rounded textbook constants, from memory. Pair parameters are made up:
    // the time does not depend on their values.
    const std::array<Substance, N> substances{{
        {126.19, 3.396e6, 0.037},
        {190.56, 4.599e6, 0.011},
        {305.32, 4.872e6, 0.099},
        {369.83, 4.248e6, 0.152},
        {407.81, 3.629e6, 0.184},
    }};
    const std::array<Vector, N> interaction{{
        {0.00, 0.03, 0.05, 0.08, 0.10},
        {0.03, 0.00, 0.00, 0.01, 0.02},
        {0.05, 0.00, 0.00, 0.00, 0.00},
        {0.08, 0.01, 0.00, 0.00, 0.00},
        {0.10, 0.02, 0.00, 0.00, 0.00},
    }};
    const Mixture mixture(substances, interaction);
    const double pressure = 1.5e6;

    // 256 compositions around the middle one, so that neither the root finder nor the branches see the same numbers twice.
    constexpr int States = 256;
    static std::array<Vector, States> compositions;
    static std::array<double, States> temperatures;
    unsigned random = 20;
    const auto next = [&random] {
        random = random * 1664525u + 1013904223u;  // a linear congruential generator: the same numbers on every machine
        return random / 4294967296.0;
    };
    for (int k = 0; k < States; k++) {
        const Vector middle{0.30, 0.30, 0.15, 0.15, 0.10};
        double sum = 0;
        for (int i = 0; i < N; i++) sum += compositions[k][i] = middle[i] * (0.8 + 0.4 * next());
        for (double& fraction : compositions[k]) fraction /= sum;
        temperatures[k] = 120 + 180 * next();
    }

    int failures = 0;
    for (const double temperature : {120.0, 200.0, 300.0}) {
        for (const Root root : {Root::Liquid, Root::Vapor}) {
            const double worst = checkByDifferences(mixture, temperature, pressure, compositions[0], root);
            if (!(worst < 1e-7)) {
                std::printf("ln phi at %g K differs from its definition by %.2e\n", temperature, worst);
                failures++;
            }
        }
    }

    constexpr int Calls = 1 << 20;
    const auto report = [](const char* what, const Timing& timing) {
        std::printf("%-62s %8.1f ns   checksum %.10g\n", what, timing.nanoseconds, timing.checksum);
    };
    const double fixed = 180;
    const Vector sqrtA = mixture.sqrtAttraction(fixed);
    const auto atOneTemperature = [&](Root root) {
        return measure(Calls, [&](int call) {
            Vector lnPhi;
            mixture.lnPhi(fixed, pressure, sqrtA, compositions[call % States], root, lnPhi);
            return lnPhi[0] + lnPhi[1] + lnPhi[2] + lnPhi[3] + lnPhi[4];
        });
    };
    report("ln phi, 5 components, 180 K, 1.5 MPa, vapour root", atOneTemperature(Root::Vapor));
    report("ln phi, 5 components, 180 K, 1.5 MPa, liquid root", atOneTemperature(Root::Liquid));
    report("ln phi, 5 components, 180 K, 1.5 MPa, root by Gibbs energy", atOneTemperature(Root::Stable));
    report("ln phi, 5 components, 120-300 K, attraction prepared each call", measure(Calls, [&](int call) {
        const int k = call % States;
        Vector lnPhi;
        mixture.lnPhi(temperatures[k], pressure, mixture.sqrtAttraction(temperatures[k]), compositions[k], Root::Stable, lnPhi);
        return lnPhi[0] + lnPhi[1] + lnPhi[2] + lnPhi[3] + lnPhi[4];
    }));
    return failures == 0 ? 0 : 1;
}
