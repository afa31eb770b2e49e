namespace CryoThermo.Flow;

/// <summary>By which correlation the friction of liquid and vapour flowing together is computed. Each states 30 to 40 % for its own data; blends are outside of all of them.</summary>
public enum TwoPhaseFrictionModel
{
    /// <summary>H. Mueller-Steinhagen, K. Heck, Chem. Eng. Process. 20 (1986) 297 (from memory), with a Blasius friction factor.</summary>
    MuellerSteinhagenHeck,

    /// <summary>L. Friedel, European Two-Phase Flow Group Meeting, Ispra 1979, paper E2 (from memory), horizontal and vertical upward flow; liquid up to 1000 times as viscous as the vapour, bores above 1 mm.</summary>
    Friedel,

    /// <summary>R. W. Lockhart, R. C. Martinelli 1949 with the constants of D. Chisholm, Int. J. Heat Mass Transfer 10 (1967) 1767 (from memory); it steps where a phase turns turbulent.</summary>
    LockhartMartinelli,

    /// <summary>Both phases at one velocity, with the friction factor of Churchill and a rule for the viscosity, as in capillaries.</summary>
    Homogeneous,
}
