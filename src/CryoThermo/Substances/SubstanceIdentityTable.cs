using System.Collections.ObjectModel;
using System.Diagnostics.CodeAnalysis;
using System.Text;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>Finds the identity of a substance from any of its spellings. Immutable and thread-safe.</summary>
/// <remarks>
/// Upper and lower case, blanks, dashes and underscores make no difference ("R14", "r-14", "Carbon-Dioxide"). A formula finds a substance
/// only where a single substance of the table has it; isomers must be named.
/// </remarks>
public sealed class SubstanceIdentityTable
{
    private const int MostNearMatches = 5;

    private static readonly Lazy<SubstanceIdentityTable> Shipped = new(ReadShipped);

    private readonly Dictionary<string, SubstanceIdentity> identityBySpelling;
    private readonly Dictionary<string, List<SubstanceIdentity>> identitiesByFormula;

    private SubstanceIdentityTable(ReadOnlyCollection<SubstanceIdentity> all, string file)
    {
        All = all;
        Dictionary<string, SubstanceIdentity> bySpelling = new(StringComparer.Ordinal);
        for (int i = 0; i < all.Count; i++)
        {
            SubstanceIdentity identity = all[i];
            string place = all.Count == 1 || file != DataFiles.Identities ? string.Empty : $"substances[{i}].";
            Claim(identity.Key, place + "cas");
            Claim(identity.Name, place + "name");
            if (identity.Designation is not null)
            {
                Claim(identity.Designation, place + "designation");
            }

            for (int j = 0; j < identity.Spellings.Count; j++)
            {
                Claim(identity.Spellings[j], $"{place}spellings[{j}]");
            }

            void Claim(string spelling, string field)
            {
                string normal = Normalize(spelling);
                if (bySpelling.TryGetValue(normal, out SubstanceIdentity? other) && !other.Equals(identity))
                {
                    throw new SubstanceDataException(
                        file, field, $"'{spelling}' already names {other.Name} ({other.Key}); a spelling names one substance only");
                }

                bySpelling[normal] = identity;
            }
        }

        identitiesByFormula = new Dictionary<string, List<SubstanceIdentity>>(StringComparer.Ordinal);
        foreach (SubstanceIdentity identity in all)
        {
            if (identity.Formula is null)
            {
                continue;
            }

            string formula = Normalize(identity.Formula);
            if (!identitiesByFormula.TryGetValue(formula, out List<SubstanceIdentity>? owners))
            {
                identitiesByFormula[formula] = owners = [];
            }

            owners.Add(identity);
        }

        foreach ((string formula, List<SubstanceIdentity> owners) in identitiesByFormula)
        {
            if (owners.Count == 1)
            {
                bySpelling.TryAdd(formula, owners[0]);
            }
        }

        identityBySpelling = bySpelling;
    }

    /// <summary>The table shipped with the library.</summary>
    public static SubstanceIdentityTable Default => Shipped.Value;

    /// <summary>All identities, in the order of the table.</summary>
    public IReadOnlyList<SubstanceIdentity> All { get; }

    /// <summary>Finds a substance by name, formula (where unique), ISO 817 designation or CAS registry number.</summary>
    /// <param name="name">Any spelling.</param>
    /// <exception cref="ArgumentException">The name is not known; the message lists near matches.</exception>
    public SubstanceIdentity Find(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return TryFind(name, out SubstanceIdentity? identity) ? identity : throw new ArgumentException(UnknownMessage(name), nameof(name));
    }

    /// <summary>Finds a substance as <see cref="Find"/> does; false when the name is not known.</summary>
    /// <param name="name">Any spelling.</param>
    /// <param name="identity">The identity found.</param>
    public bool TryFind(string? name, [NotNullWhen(true)] out SubstanceIdentity? identity)
    {
        identity = null;
        return !string.IsNullOrWhiteSpace(name) && identityBySpelling.TryGetValue(Normalize(name), out identity);
    }

    /// <summary>Known substances whose spelling resembles <paramref name="name"/>, the nearest first; at most five.</summary>
    /// <param name="name">The spelling that was not found.</param>
    public IReadOnlyList<SubstanceIdentity> NearMatches(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        string normal = Normalize(name);
        if (identitiesByFormula.TryGetValue(normal, out List<SubstanceIdentity>? isomers))
        {
            return [.. isomers];
        }

        int most = Math.Max(2, normal.Length / 3);
        return
        [
            .. identityBySpelling
            .Select(pair => (Distance: EditDistance(normal, pair.Key), Identity: pair.Value))
            .Where(match => match.Distance <= most && match.Distance < normal.Length)
            .OrderBy(match => match.Distance).ThenBy(match => match.Identity.Name, StringComparer.Ordinal)
            .Select(match => match.Identity)
            .Distinct()
            .Take(MostNearMatches),
        ];
    }

    /// <summary>
    /// A table that also knows <paramref name="identity"/>; when its key is known already, the further spellings are added to those known.
    /// </summary>
    internal SubstanceIdentityTable With(SubstanceIdentity identity, string file)
    {
        List<SubstanceIdentity> all = [.. All];
        int index = all.IndexOf(identity);
        if (index < 0)
        {
            all.Add(identity);
        }
        else
        {
            all[index] = Merge(all[index], identity);
        }

        return new SubstanceIdentityTable(all.AsReadOnly(), file);
    }

    /// <summary>The known identity with the spellings, formula and designation of <paramref name="added"/> where it has none of its own.</summary>
    internal static SubstanceIdentity Merge(SubstanceIdentity known, SubstanceIdentity added)
    {
        List<string> spellings = new(known.Spellings) { added.Name };
        spellings.AddRange(added.Spellings);
        HashSet<string> taken = new(StringComparer.Ordinal) { Normalize(known.Name) };
        spellings.RemoveAll(spelling => !taken.Add(Normalize(spelling)));
        return new SubstanceIdentity(
            known.Key, known.Name, known.Formula ?? added.Formula, known.Designation ?? added.Designation, spellings.AsReadOnly());
    }

    internal static string Normalize(string spelling)
    {
        StringBuilder normal = new(spelling.Length);
        foreach (char c in spelling)
        {
            if (c is not (' ' or '-' or '_'))
            {
                normal.Append(c);
            }
        }

        return normal.ToString().ToLowerInvariant();
    }

    internal string UnknownMessage(string name)
    {
        string near = string.Join(", ", NearMatches(name).Select(i => $"{i.Name} ({i.Key})"));
        string isomers = identitiesByFormula.ContainsKey(Normalize(name)) ? "is the formula of several substances; name one of" : "resembles";
        return $"'{name}' is no known substance name, formula, ISO 817 designation or CAS registry number."
            + (near.Length == 0 ? " Nothing known resembles it." : $" It {isomers}: {near}.");
    }

    private static SubstanceIdentityTable ReadShipped() => JsonBlock.ReadFile(DataFiles.ReadText(DataFiles.Identities), DataFiles.Identities, Read);

    private static SubstanceIdentityTable Read(JsonBlock root)
    {
        root.RequireOnly("substances");
        return new SubstanceIdentityTable(
            root.Check.Required(root.OptionalList("substances", ReadIdentity), "substances"), DataFiles.Identities);
    }

    private static SubstanceIdentity ReadIdentity(JsonBlock block)
    {
        block.RequireOnly("cas", "name", "formula", "designation", "spellings");
        return IdentityReader.Read(block);
    }

    private static int EditDistance(string a, string b)
    {
        int[] previous = new int[b.Length + 1];
        int[] current = new int[b.Length + 1];
        for (int j = 0; j <= b.Length; j++)
        {
            previous[j] = j;
        }

        for (int i = 1; i <= a.Length; i++)
        {
            current[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int change = previous[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                current[j] = Math.Min(change, Math.Min(previous[j], current[j - 1]) + 1);
            }

            (previous, current) = (current, previous);
        }

        return previous[b.Length];
    }
}
