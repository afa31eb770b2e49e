using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// The substances and pair parameters a calculation may use. Immutable and thread-safe: adding a substance or a file gives a new catalogue.
/// </summary>
public sealed class SubstanceCatalog
{
    private static readonly Lazy<SubstanceCatalog> Shipped = new(OpenShipped);

    private readonly Dictionary<string, Lazy<Substance>> substancesByKey;
    private readonly Lazy<CubicPairTable> pairTable;
    private readonly Lazy<MultiFluidTable> multiFluidTable;
    private readonly Lazy<CubicPairEstimator> estimator;
    private readonly Lazy<MultiFluidPairEstimator> multiFluidEstimator;

    private SubstanceCatalog(
        Dictionary<string, Lazy<Substance>> byKey, SubstanceIdentityTable identities, Lazy<CubicPairTable> pairs, Lazy<MultiFluidTable> multiFluid)
    {
        substancesByKey = byKey;
        Identities = identities;
        pairTable = pairs;
        multiFluidTable = multiFluid;
        this.estimator = new Lazy<CubicPairEstimator>(
            () => new CubicPairEstimator(pairTable.Value.Known, key => substancesByKey.GetValueOrDefault(key)?.Value));
        multiFluidEstimator = new Lazy<MultiFluidPairEstimator>(
            () => new MultiFluidPairEstimator(MultiFluid.BestPairs, key => substancesByKey.GetValueOrDefault(key)?.Value));
    }

    /// <summary>The catalogue shipped with the library. Each of its files is read when what it describes is first asked for.</summary>
    public static SubstanceCatalog Default => Shipped.Value;

    /// <summary>The identities this catalogue knows; more than it holds data for.</summary>
    public SubstanceIdentityTable Identities { get; }

    /// <summary>All substances, in the order of their keys. Reads the files of those not asked for before.</summary>
    /// <exception cref="SubstanceDataException">A shipped file breaks a rule of its format.</exception>
    public IReadOnlyCollection<Substance> All => [.. substancesByKey.OrderBy(entry => entry.Key, StringComparer.Ordinal).Select(entry => entry.Value.Value)];

    /// <summary>The estimator of unknown pairs and its error bands.</summary>
    internal CubicPairEstimator Estimator => estimator.Value;

    /// <summary>The estimator of unknown multi-fluid pairs and its error bands.</summary>
    internal MultiFluidPairEstimator MultiFluidEstimator => multiFluidEstimator.Value;

    /// <summary>Equations, departure functions and pairs of the multi-fluid model.</summary>
    internal MultiFluidTable MultiFluid => multiFluidTable.Value;

    /// <summary>How many substances have been read so far.</summary>
    internal int ReadCount => substancesByKey.Values.Count(substance => substance.IsValueCreated);

    /// <summary>Known pairs of the cubic equations, one value for each pair and model.</summary>
    internal IEnumerable<CubicPair> KnownPairs => pairTable.Value.Known;

    /// <summary>Finds a substance by name, formula (where unique), ISO 817 designation or CAS registry number.</summary>
    /// <param name="name">Any spelling; upper and lower case, blanks and dashes make no difference.</param>
    /// <exception cref="ArgumentException">The name is not known (near matches are listed), or the catalogue holds no data for the substance.</exception>
    public Substance Find(string name)
    {
        SubstanceIdentity identity = Identities.Find(name);
        return substancesByKey.TryGetValue(identity.Key, out Lazy<Substance>? substance)
            ? substance.Value
            : throw new ArgumentException(
                $"'{name}' is {identity.Name} ({identity.Key}), for which the catalogue holds no data; add a substance file.", nameof(name));
    }

    /// <summary>Finds a substance as <see cref="Find"/> does; false when the catalogue does not hold it.</summary>
    /// <param name="name">Any spelling.</param>
    /// <param name="substance">The substance found.</param>
    public bool TryFind(string? name, [NotNullWhen(true)] out Substance? substance)
    {
        substance = Identities.TryFind(name, out SubstanceIdentity? identity) ? substancesByKey.GetValueOrDefault(identity.Key)?.Value : null;
        return substance is not null;
    }

    /// <summary>Tells whether the catalogue holds data for a substance.</summary>
    /// <param name="name">Any spelling.</param>
    public bool Contains(string? name) =>
        Identities.TryFind(name, out SubstanceIdentity? identity) && substancesByKey.ContainsKey(identity.Key);

    /// <summary>A new catalogue that also holds <paramref name="substance"/>; it replaces one with the same key.</summary>
    /// <param name="substance">The substance.</param>
    /// <exception cref="SubstanceDataException">One of its spellings names another substance of this catalogue.</exception>
    public SubstanceCatalog With(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        Dictionary<string, Lazy<Substance>> extended = new(substancesByKey, StringComparer.Ordinal)
        {
            [substance.Identity.Key] = new Lazy<Substance>(substance),
        };
        return new SubstanceCatalog(extended, Identities.With(substance.Identity, substance.FileName), pairTable, multiFluidTable);
    }

    /// <summary>A new catalogue that also holds <paramref name="pair"/>; it goes before those known so far for the same substances and model.</summary>
    /// <param name="pair">A <see cref="CubicPair"/> or a <see cref="MultiFluidPair"/>.</param>
    /// <exception cref="ArgumentException">It is a pair of another kind.</exception>
    public SubstanceCatalog With(BinaryPair pair)
    {
        ArgumentNullException.ThrowIfNull(pair);
        return pair switch
        {
            CubicPair cubic => new(substancesByKey, Identities, new Lazy<CubicPairTable>(pairTable.Value.With(new PairFile([cubic], null))), multiFluidTable),
            MultiFluidPair multi => new(
                substancesByKey,
                Identities,
                pairTable,
                new Lazy<MultiFluidTable>(MultiFluid.With(new MultiFluidFile(
                    ImmutableDictionary<string, HelmholtzEquation>.Empty, ImmutableDictionary<string, DepartureFunction>.Empty, [multi])))),
            _ => throw new ArgumentException($"pair is a {pair.GetType().Name}; it must be a {nameof(CubicPair)} or a {nameof(MultiFluidPair)}.", nameof(pair)),
        };
    }

    /// <summary>A new catalogue that also holds the substance of a substance file (docs/formats/substance-file.md).</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="SubstanceDataException">The file breaks a rule of the format; names file, field and rule.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public SubstanceCatalog WithFile(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        return With(SubstanceReader.Read(File.ReadAllText(path), Path.GetFileName(path), Identities));
    }

    /// <summary>
    /// A new catalogue that also holds the pairs of a pair file (docs/formats/pair-file.md); its values go before those known so far.
    /// </summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="SubstanceDataException">The file breaks a rule of the format; names file, field and rule.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public SubstanceCatalog WithPairFile(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        return WithPairs(File.ReadAllText(path), Path.GetFileName(path));
    }

    /// <summary>
    /// The interaction parameter of two substances in a cubic equation. Always answers: what is neither published nor fitted is estimated and
    /// carries the error band of its rule. With quantum corrections a pair of two substances without such a correction is that of Peng-Robinson,
    /// and is returned as such.
    /// </summary>
    /// <param name="first">One substance.</param>
    /// <param name="second">The other substance.</param>
    /// <param name="model">The cubic equation.</param>
    /// <exception cref="ArgumentException">Both are the same substance.</exception>
    public CubicPair PairOf(Substance first, Substance second, CubicModelKind model)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        if (first.Identity.Equals(second.Identity))
        {
            throw new ArgumentException($"A pair needs two substances; both are {first.Name}.", nameof(second));
        }

        if (model == CubicModelKind.PengRobinsonQuantumCorrected && QuantumCorrectionOf(first) is null && QuantumCorrectionOf(second) is null)
        {
            model = CubicModelKind.PengRobinson;
        }

        return pairTable.Value.Find(first.Identity, second.Identity, model) ?? Estimator.Estimate(first, second, model);
    }

    /// <summary>
    /// The parameters of two substances in the recommended multi-fluid model. Always answers: what was neither fitted to measurements by the
    /// standard nor here is estimated with an error band, and its tier says so. The parameters of the standard alone, with the means it takes
    /// where it had no measurements, are those of its publication.
    /// </summary>
    /// <param name="first">The component the asymmetric parameters count from.</param>
    /// <param name="second">The other component.</param>
    /// <exception cref="ArgumentException">Both are the same substance.</exception>
    public MultiFluidPair MultiFluidPairOf(Substance first, Substance second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        if (first.Identity.Equals(second.Identity))
        {
            throw new ArgumentException($"A pair needs two substances; both are {first.Name}.", nameof(second));
        }

        return MultiFluid.FindBest(first.Identity, second.Identity) is { IsFounded: true } known ? known : MultiFluidEstimator.Estimate(first, second);
    }

    /// <summary>The catalogue without fitted pairs of the multi-fluid model: where the fits of the library start from.</summary>
    internal SubstanceCatalog WithStandardPairsOnly() => new(substancesByKey, Identities, pairTable, new Lazy<MultiFluidTable>(() => MultiFluid.StandardOnly()));

    /// <summary>The catalogue with the published pairs of the cubic equations only: where the fits of the library start from.</summary>
    internal SubstanceCatalog WithPublishedCubicPairsOnly() =>
        new(substancesByKey, Identities, new Lazy<CubicPairTable>(() => pairTable.Value.PublishedOnly()), multiFluidTable);

    /// <summary>The catalogue without the pairs of the cubic equations that the library's command has fitted to measured sets.</summary>
    internal SubstanceCatalog WithoutFittedCubicFile() =>
        new(substancesByKey, Identities, new Lazy<CubicPairTable>(() => ReadCubicPairs(Identities, DataFiles.Pairs)), multiFluidTable);

    /// <summary>The quantum corrections of a substance; a spin form of hydrogen takes those of normal hydrogen where it has none of its own.</summary>
    internal QuantumCorrectionParameters? QuantumCorrectionOf(Substance substance)
    {
        if (substance.QuantumCorrection is { } own)
        {
            return own;
        }

        string parent = CasNumber.WithoutSuffix(substance.Identity.Key);
        return parent == substance.Identity.Key ? null : substancesByKey.GetValueOrDefault(parent)?.Value.QuantumCorrection;
    }

    internal SubstanceCatalog WithPairs(string text, string fileName)
    {
        PairFile file = PairFileReader.Read(text, fileName, Identities, () => MultiFluid.Departures);
        CubicPairTable pairs = pairTable.Value.With(file);
        return new SubstanceCatalog(
            substancesByKey,
            Identities,
            new Lazy<CubicPairTable>(pairs),
            file.MultiFluid is { } own ? new Lazy<MultiFluidTable>(MultiFluid.With(own)) : multiFluidTable);
    }

    /// <summary>A catalogue of the shipped files, none of them read yet.</summary>
    internal static SubstanceCatalog OpenShipped()
    {
        SubstanceIdentityTable identities = SubstanceIdentityTable.Default;
        HashSet<string> files = new(DataFiles.Names, StringComparer.Ordinal);
        Dictionary<string, Lazy<Substance>> byKey = new(StringComparer.Ordinal);
        foreach (SubstanceIdentity identity in identities.All)
        {
            string file = DataFiles.FileOf(identity);
            if (files.Contains(file))
            {
                byKey.Add(identity.Key, new Lazy<Substance>(() => ReadShipped(file, identity, identities)));
            }
        }

        return new SubstanceCatalog(
            byKey,
            identities,
            new Lazy<CubicPairTable>(() => ReadCubicPairs(identities, DataFiles.Pairs, DataFiles.FittedCubicPairs)),
            new Lazy<MultiFluidTable>(() => ReadMultiFluid(identities)));
    }

    // As one file: in a tier the later goes before the earlier, and what is published goes before what is fitted.
    private static CubicPairTable ReadCubicPairs(SubstanceIdentityTable identities, params ReadOnlySpan<string> files)
    {
        List<CubicPair> pairs = [];
        foreach (string file in files)
        {
            pairs.AddRange(ReadPairs(file, identities, () => ImmutableDictionary<string, DepartureFunction>.Empty).Pairs);
        }

        return CubicPairTable.Empty.With(new PairFile([.. pairs], null));
    }

    private static PairFile ReadPairs(
        string file, SubstanceIdentityTable identities, Func<ImmutableDictionary<string, DepartureFunction>> departures) =>
        PairFileReader.Read(DataFiles.ReadText(file), file, identities, departures);

    private static MultiFluidTable ReadMultiFluid(SubstanceIdentityTable identities)
    {
        MultiFluidTable standard = MultiFluidTable.Of(
            MultiFluidReader.ReadStandard(DataFiles.ReadText(DataFiles.MixtureStandard), DataFiles.MixtureStandard, identities));
        return ReadPairs(DataFiles.MultiFluidPairs, identities, () => standard.Departures).MultiFluid is { } further ? standard.With(further) : standard;
    }

    private static Substance ReadShipped(string file, SubstanceIdentity identity, SubstanceIdentityTable identities)
    {
        Substance substance = SubstanceReader.ReadUnchecked(DataFiles.ReadText(file), file, identities);
        return substance.Identity.Equals(identity)
            ? substance
            : throw new SubstanceDataException(file, "cas", $"{substance.Identity.Key} does not fit the file's name, which belongs to {identity.Key}");
    }
}
