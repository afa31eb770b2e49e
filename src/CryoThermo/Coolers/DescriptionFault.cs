namespace CryoThermo.Coolers;

/// <summary>One fault of a cooler file. Immutable and thread-safe.</summary>
/// <param name="Field">The field's path in the file, for example "compressor.speed"; "(file)" for the file as a whole.</param>
/// <param name="Message">What is wrong, with the value, its unit and what is allowed.</param>
public sealed record DescriptionFault(string Field, string Message);
