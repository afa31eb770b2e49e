namespace CryoThermo.Checks.Values;

/// <summary>What a reader of a measured set should know.</summary>
public sealed record SetRemark(string Set, string Remark);
