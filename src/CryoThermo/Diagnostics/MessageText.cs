namespace CryoThermo.Diagnostics;

/// <summary>Messages of exceptions as sentences of other messages.</summary>
internal static class MessageText
{
    /// <summary>The message alone: an argument exception adds the name of the parameter in brackets, and the value on a second line.</summary>
    public static string Of(Exception error)
    {
        string message = error.Message;
        int end = message.IndexOfAny(['\r', '\n']);
        string line = end < 0 ? message : message[..end];
        int parameter = line.LastIndexOf(" (Parameter '", StringComparison.Ordinal);
        return parameter < 0 ? line : line[..parameter];
    }
}
