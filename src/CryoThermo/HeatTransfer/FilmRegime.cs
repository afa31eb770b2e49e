namespace CryoThermo.HeatTransfer;

/// <summary>How a stream flows along the wall of a passage.</summary>
public enum FilmRegime
{
    /// <summary>One phase, laminar.</summary>
    Laminar,

    /// <summary>One phase, between laminar and turbulent: no figure is sure.</summary>
    Transitional,

    /// <summary>One phase, turbulent.</summary>
    Turbulent,

    /// <summary>The first vapour beside liquid: joined to the liquid alone.</summary>
    NearLiquid,

    /// <summary>Liquid and vapour, heated.</summary>
    Evaporating,

    /// <summary>Liquid and vapour, cooled.</summary>
    Condensing,

    /// <summary>The last liquid: the wall dries out or the film is no longer whole; joined to the vapour alone.</summary>
    NearVapor,
}
