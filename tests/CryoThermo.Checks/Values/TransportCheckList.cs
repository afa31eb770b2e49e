namespace CryoThermo.Checks.Values;

/// <summary>Published values of transport correlations and figures of handbooks.</summary>
public sealed record TransportCheckList(
    string About,
    IReadOnlyList<TransportCheck> Published,
    string HandbookSource,
    IReadOnlyList<TransportHandbookFigure> Handbook,
    IReadOnlyList<SurfaceTensionFigure> SurfaceTension,
    IReadOnlyList<TransportMixturePoint> Mixtures);
