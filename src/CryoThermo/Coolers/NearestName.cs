namespace CryoThermo.Coolers;

/// <summary>Finds the known name that a misspelt one most likely means.</summary>
internal static class NearestName
{
    /// <summary>The candidate with the least edit distance, case ignored; null when there are no candidates.</summary>
    public static string? Of(string name, IEnumerable<string> candidates) =>
        candidates.MinBy(candidate => EditDistance(name.ToLowerInvariant(), candidate.ToLowerInvariant()));

    /// <summary>Levenshtein's distance: the least number of insertions, deletions and replacements.</summary>
    private static int EditDistance(string left, string right)
    {
        // A very long name cannot be near anything; the cut keeps the work small.
        const int Longest = 64;
        ReadOnlySpan<char> a = left.AsSpan(0, Math.Min(left.Length, Longest));
        ReadOnlySpan<char> b = right.AsSpan(0, Math.Min(right.Length, Longest));
        Span<int> row = stackalloc int[Longest + 1];
        for (int j = 0; j <= b.Length; j++)
        {
            row[j] = j;
        }

        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(replaced, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[b.Length];
    }
}
