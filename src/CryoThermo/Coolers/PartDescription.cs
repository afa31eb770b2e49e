using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>A part of a cooler whose material or rating a cooler file tells. Immutable and thread-safe.</summary>
/// <param name="Name">What it is.</param>
/// <param name="IsHighSide">Whether it holds the high pressure, or else the low.</param>
/// <param name="Coldest">How cold it becomes; null for the coldest surface the design reaches.</param>
/// <param name="Material">What it, or its seal, is made of; null where it is not told.</param>
/// <param name="Rating">Pressure it is rated for; null where it is not told.</param>
public sealed record PartDescription(string Name, bool IsHighSide, Temperature? Coldest, ColdService? Material, GaugePressure? Rating);
