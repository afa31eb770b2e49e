using System.Reflection;
using CryoThermo.Diagnostics;

namespace CryoThermo.Tests;

public sealed class ResultTableTests
{
    private static readonly ResultTable Table = new("Masses <of> a charge", ["component", "mass, g"], [["propane", "10.35"], ["methane & more", "8.1"]]);

    [Fact]
    public void TextIsAligned() => Assert.Equal(
        "Masses <of> a charge\ncomponent       mass, g\n--------------  -------\npropane           10.35\nmethane & more      8.1\n",
        Table.ToString().ReplaceLineEndings("\n"));

    [Fact]
    public void HtmlIsEncoded()
    {
        string html = Table.ToHtml();
        Assert.Contains("<caption>Masses &lt;of&gt; a charge</caption>", html, StringComparison.Ordinal);
        Assert.Contains("<td>methane &amp; more</td>", html, StringComparison.Ordinal);
    }

    /// <summary>Notebooks look for the attribute by name and for formatters by shape: what they call is called here by reflection.</summary>
    [Fact]
    public void NotebooksFindTheFormatterByConvention()
    {
        object attribute = typeof(ResultTable).GetCustomAttributes().Single(a => a.GetType().Name == "TypeFormatterSourceAttribute");
        Assert.Equal(["text/html"], (string[])attribute.GetType().GetProperty("PreferredMimeTypes")!.GetValue(attribute)!);
        Type sourceType = (Type)attribute.GetType().GetProperty("FormatterSourceType")!.GetValue(attribute)!;
        object source = Activator.CreateInstance(sourceType)!;
        var formatters = (IEnumerable<object>)sourceType.GetMethod("CreateTypeFormatters")!.Invoke(source, null)!;
        object formatter = Assert.Single(formatters);
        Assert.Equal("text/html", formatter.GetType().GetProperty("MimeType")!.GetValue(formatter));
        StringWriter writer = new();
        MethodInfo format = formatter.GetType().GetMethod("Format")!;
        Assert.True((bool)format.Invoke(formatter, [Table, writer])!);
        Assert.Equal(Table.ToHtml(), writer.ToString());
        Assert.False((bool)format.Invoke(formatter, ["else", writer])!);
    }

    [Fact]
    public void RowsMustFit()
    {
        Assert.Throws<ArgumentException>(() => new ResultTable("a", ["x", "y"], [["1"]]));
        Assert.Throws<ArgumentException>(() => new ResultTable("a", [], []));
    }
}
