namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>
/// The two-parameter cubic p = R T/(v - b) - a/((v + d1 b)(v + d2 b)), of which Peng-Robinson and Soave-Redlich-Kwong
/// are two choices of d1 and d2. The critical constants follow from dp/dv = d2p/dv2 = 0 at the critical point.
/// </summary>
internal sealed class CubicForm
{
    private CubicForm(double delta1, double delta2, double omegaA, double omegaB, double criticalCompressibility)
    {
        Delta1 = delta1;
        Delta2 = delta2;
        OmegaA = omegaA;
        OmegaB = omegaB;
        CriticalCompressibility = criticalCompressibility;
    }

    /// <summary>Peng, Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59; constants to full precision from the critical conditions.</summary>
    public static CubicForm PengRobinson { get; } =
        new(1 + Math.Sqrt(2), 1 - Math.Sqrt(2), 0.45723552892138218, 0.077796073903888457, 0.30740130869870386);

    /// <summary>Soave, Chem. Eng. Sci. 27 (1972) 1197; constants to full precision from the critical conditions.</summary>
    public static CubicForm SoaveRedlichKwong { get; } =
        new(1, 0, 0.42748023354034139, 0.086640349964957732, 1.0 / 3.0);

    /// <summary>First constant of the attractive denominator.</summary>
    public double Delta1 { get; }

    /// <summary>Second constant of the attractive denominator, less than <see cref="Delta1"/>.</summary>
    public double Delta2 { get; }

    /// <summary>a(Tc) = OmegaA (R Tc)^2/pc.</summary>
    public double OmegaA { get; }

    /// <summary>b = OmegaB R Tc/pc.</summary>
    public double OmegaB { get; }

    /// <summary>pc vc/(R Tc) of every pure fluid in this form.</summary>
    public double CriticalCompressibility { get; }
}
