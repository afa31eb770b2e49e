using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>How a cubic equation is made from the constants of its substances.</summary>
/// <param name="Form">Which cubic.</param>
/// <param name="PairKind">Which interaction parameters belong to it.</param>
/// <param name="Alpha">Its temperature function for a substance.</param>
/// <param name="IsVolumeTranslated">Whether volumes are shifted.</param>
internal sealed record CubicRecipe(CubicForm Form, CubicModelKind PairKind, Func<Substance, AlphaFunction> Alpha, bool IsVolumeTranslated);
