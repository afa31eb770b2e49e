namespace CryoThermo.Coolers;

/// <summary>One fault of a cooler file. Immutable and thread-safe.</summary>
/// <param name="Field">The field's path in the file, for example "compressor.speed"; "(file)" for the file as a whole.</param>
/// <param name="Message">What is wrong, with the value, its unit and what is allowed.</param>
public sealed record DescriptionFault(string Field, string Message)
{
    /// <summary>Field and message on one line; control characters of the file are shown as question marks.</summary>
    public override string ToString() =>
        string.Create(Field.Length + 2 + Message.Length, this, static (line, fault) =>
        {
            $"{fault.Field}: {fault.Message}".CopyTo(line);
            foreach (ref char c in line)
            {
                c = char.IsControl(c) || c is '\u2028' or '\u2029' ? '?' : c;
            }
        });
}
