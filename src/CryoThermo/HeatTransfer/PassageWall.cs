namespace CryoThermo.HeatTransfer;

/// <summary>Through which wall of a passage between two tubes the heat goes; the other is taken as insulated.</summary>
public enum PassageWall
{
    /// <summary>The tube or tubes inside.</summary>
    Inner,

    /// <summary>The tube around.</summary>
    Outer,
}
