// The residual part of the Helmholtz equation of nitrogen and the states at which the yardsticks compute it.
// R. Span, E. W. Lemmon, R. T. Jacobsen, W. Wagner, A. Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361.
#pragma once
#include <array>

namespace helmholtz {

constexpr double GasConstant = 8.31451;            // J/(mol K), as the equation was fitted
constexpr double CriticalTemperature = 126.192;    // K, also the reducing temperature
constexpr double CriticalDensity = 11183.9;        // mol/m3, also the reducing density
constexpr double CriticalPressure = 3395800;       // Pa

// n delta^d tau^t exp(-delta^c), without the exponential for c = 0.
struct DensityTerm {
    double coefficient, temperatureExponent;
    int densityExponent, decayExponent;
};

// n delta^d tau^t exp(-eta (delta - epsilon)^2 - beta (tau - gamma)^2).
struct BellTerm {
    double coefficient, temperatureExponent;
    int densityExponent;
    double densitySharpness, densityCenter, temperatureSharpness, temperatureCenter;
};

constexpr int DensityTerms = 32, BellTerms = 4, Terms = DensityTerms + BellTerms;
constexpr int HighestDensityPower = 9;

inline constexpr std::array<DensityTerm, DensityTerms> NitrogenDensityTerms{{
    {0.924803575275, 0.25, 1, 0},
    {-0.492448489428, 0.875, 1, 0},
    {0.661883336938, 0.5, 2, 0},
    {-1.92902649201, 0.875, 2, 0},
    {-0.0622469309629, 0.375, 3, 0},
    {0.349943957581, 0.75, 3, 0},
    {0.564857472498, 0.5, 1, 1},
    {-1.61720005987, 0.75, 1, 1},
    {-0.481395031883, 2, 1, 1},
    {0.421150636384, 1.25, 3, 1},
    {-0.0161962230825, 3.5, 3, 1},
    {0.172100994165, 1, 4, 1},
    {0.00735448924933, 0.5, 6, 1},
    {0.0168077305479, 3, 6, 1},
    {-0.00107626664179, 0, 7, 1},
    {-0.0137318088513, 2.75, 7, 1},
    {0.000635466899859, 0.75, 8, 1},
    {0.00304432279419, 2.5, 8, 1},
    {-0.0435762336045, 4, 1, 2},
    {-0.0723174889316, 6, 2, 2},
    {0.0389644315272, 6, 3, 2},
    {-0.021220136391, 3, 4, 2},
    {0.00408822981509, 3, 5, 2},
    {-5.51990017984e-05, 6, 8, 2},
    {-0.0462016716479, 16, 4, 3},
    {-0.00300311716011, 11, 5, 3},
    {0.0368825891208, 15, 5, 3},
    {-0.0025585684622, 12, 8, 3},
    {0.00896915264558, 12, 3, 4},
    {-0.0044151337035, 7, 5, 4},
    {0.00133722924858, 4, 6, 4},
    {0.000264832491957, 16, 9, 4},
}};

inline constexpr std::array<BellTerm, BellTerms> NitrogenBellTerms{{
    {19.6688194015, 0, 1, 20, 1, 325, 1.16},
    {-20.911560073, 1, 1, 20, 1, 325, 1.16},
    {0.0167788306989, 2, 3, 15, 1, 300, 1.13},
    {2627.67566274, 3, 2, 25, 1, 275, 1.25},
}};

// Residual Helmholtz energy over RT and its derivatives by tau and delta.
struct Derivatives {
    double value, byTau, byDelta, byTauTau, byTauDelta, byDeltaDelta;

    double sum() const { return value + byTau + byDelta + byTauTau + byTauDelta + byDeltaDelta; }
};

// Whole derivatives from the sums of tau^i delta^j times them.
inline Derivatives unscaled(double value, double t, double d, double tt, double td, double dd, double tau, double delta) {
    const double perTau = 1 / tau, perDelta = 1 / delta;
    return {value, t * perTau, d * perDelta, tt * perTau * perTau, td * perTau * perDelta, dd * perDelta * perDelta};
}

struct State {
    double tau, delta;
};

constexpr int States = 64;

// State k: T = 80 K + 520 K k/63, density = 10 mol/m3 + 24990 mol/m3 (37 k mod 64)/63. A kernel's load, so whether a state is stable is all one.
inline std::array<State, States> states() {
    std::array<State, States> result;
    for (int k = 0; k < States; k++) {
        const double temperature = 80 + 520.0 * k / 63;
        const double density = 10 + 24990.0 * (37 * k % 64) / 63;
        result[k] = {CriticalTemperature / temperature, density / CriticalDensity};
    }
    return result;
}

// One exponential for each term, as many at a time as the machine can: in a source file of its own, since its compiler options differ.
class VectorEquation {
public:
    VectorEquation();

    Derivatives at(double tau, double delta) const;

private:
    struct Density {
        alignas(64) double coefficient[DensityTerms], temperatureExponent[DensityTerms], densityExponent[DensityTerms], decayExponent[DensityTerms];
        int densityPower[DensityTerms], decayPower[DensityTerms];
    } density_;

    struct Bell {
        alignas(64) double coefficient[BellTerms], temperatureExponent[BellTerms], densityExponent[BellTerms], densitySharpness[BellTerms],
            densityCenter[BellTerms], temperatureSharpness[BellTerms], temperatureCenter[BellTerms];
    } bell_;
};

}  // namespace helmholtz
