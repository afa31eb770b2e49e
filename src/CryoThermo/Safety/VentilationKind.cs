namespace CryoThermo.Safety;

/// <summary>How the air of a room is changed.</summary>
public enum VentilationKind
{
    /// <summary>By a fan that draws room air out; fresh air follows.</summary>
    Exhaust,

    /// <summary>By a fan that blows fresh air in; room air leaves.</summary>
    Supply,
}
