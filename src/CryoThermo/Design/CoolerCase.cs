using CryoThermo.Coolers.Rating;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>A cooler, its charge and its room, as an uncertainty leaves them.</summary>
internal sealed record CoolerCase(Cooler Cooler, CoolerCharge Charge, Temperature Ambient);
