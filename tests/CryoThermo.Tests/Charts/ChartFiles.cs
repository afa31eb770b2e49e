using System.Buffers.Binary;
using System.Xml.Linq;

namespace CryoThermo.Tests.Charts;

/// <summary>Looks into chart files.</summary>
internal static class ChartFiles
{
    private static readonly byte[] PngSignature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    public static string[] Texts(XElement svg) => [.. svg.Descendants().Where(static e => e.Name.LocalName == "text").Select(static e => e.Value.Trim())];

    /// <summary>Signature, and width and height of the header chunk (ISO/IEC 15948, clause 11.2.2).</summary>
    public static void CheckPng(Action<string> save, int width, int height) => WithFile(save, path =>
    {
        byte[] bytes = File.ReadAllBytes(path);
        Assert.Equal(PngSignature, bytes[..8]);
        Assert.Equal(width, BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(16)));
        Assert.Equal(height, BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(20)));
    });

    public static void CheckSvg(Action<string> save, int width, int height) => WithFile(save, path =>
    {
        XDocument document = XDocument.Load(path);
        Assert.NotNull(document.Declaration);
        Assert.Equal($"{width}", document.Root?.Attribute("width")?.Value);
        Assert.Equal($"{height}", document.Root?.Attribute("height")?.Value);
    });

    private static void WithFile(Action<string> save, Action<string> check)
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("charts-");
        try
        {
            string path = Path.Combine(folder.FullName, "chart");
            save(path);
            check(path);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
