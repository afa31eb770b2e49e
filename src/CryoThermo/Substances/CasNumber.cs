namespace CryoThermo.Substances;

/// <summary>The key of a substance: a CAS registry number with a correct check digit, optionally with a suffix of our own.</summary>
/// <remarks>
/// "1333-74-0/para" names a spin form; "own/lab-oil" a substance that has no registry number. The check digit is the sum of the
/// other digits, each times its place counted from the right, modulo ten (published rule of the registry).
/// </remarks>
internal static class CasNumber
{
    private const string OwnPrefix = "own/";

    /// <summary>Tells which rule <paramref name="text"/> breaks as a key; null when it breaks none.</summary>
    public static string? BrokenRule(string text)
    {
        if (text.StartsWith(OwnPrefix, StringComparison.Ordinal))
        {
            return IsLabel(text.AsSpan(OwnPrefix.Length))
                ? null
                : $"'{text}' must continue after '{OwnPrefix}' with lower-case letters, digits and dashes";
        }

        ReadOnlySpan<char> number = text;
        int slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash >= 0)
        {
            if (!IsLabel(text.AsSpan(slash + 1)))
            {
                return $"'{text}' must continue after '/' with lower-case letters, digits and dashes";
            }

            number = text.AsSpan(0, slash);
        }

        int dashes = 0;
        int digits = 0;
        foreach (char c in number)
        {
            dashes += c == '-' ? 1 : 0;
            digits += char.IsAsciiDigit(c) ? 1 : 0;
        }

        bool shaped = dashes == 2 && digits is >= 5 and <= 10 && digits + dashes == number.Length
            && number.Length >= 7 && number[^2] == '-' && number[^5] == '-' && number[0] != '0';
        if (!shaped)
        {
            return $"'{text}' is not a CAS registry number of the form 74-98-6 (nor 'own/...' for a substance without one)";
        }

        int sum = 0;
        int place = 0;
        for (int i = number.Length - 2; i >= 0; i--)
        {
            if (number[i] != '-')
            {
                place++;
                sum += place * (number[i] - '0');
            }
        }

        int expected = sum % 10;
        return number[^1] - '0' == expected
            ? null
            : $"'{text}' has check digit {number[^1]}; the other digits demand {expected}";
    }

    /// <summary>The key without the suffix that names a spin form.</summary>
    public static string WithoutSuffix(string key)
    {
        int slash = key.IndexOf('/', StringComparison.Ordinal);
        return slash < 0 || key.StartsWith(OwnPrefix, StringComparison.Ordinal) ? key : key[..slash];
    }

    private static bool IsLabel(ReadOnlySpan<char> text)
    {
        foreach (char c in text)
        {
            if (!(char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-'))
            {
                return false;
            }
        }

        return !text.IsEmpty;
    }
}
