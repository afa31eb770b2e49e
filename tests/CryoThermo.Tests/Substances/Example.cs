namespace CryoThermo.Tests.Substances;

/// <summary>A small substance file of a fictional fluid close to propane, and its broken variants.</summary>
internal static class Example
{
    public const string File = "bench-fluid.json";

    private const string Text =
        """
        {
          // a fictional fluid
          "name": "bench fluid",
          "cas": "own/bench-fluid",
          "formula": "C3H8",
          "sources": {
            "made up": { "publication": "invented for a test, no source", "fromMemory": false }
          },
          "molarMass": { "value": 0.0441, "source": "made up" },
          "critical": { "temperature": 370, "pressure": 4.25e6, "molarDensity": 5000, "source": "made up" },
          "acentricFactor": { "value": 0.152, "source": "made up" },
          "normalBoilingPoint": { "temperature": 231, "source": "made up" },
          "triplePoint": { "temperature": 85, "pressure": 0.0002, "source": "made up" },
          "idealGasHeatCapacity": {
            "terms": [
              { "kind": "power", "coefficient": 4, "exponent": 0 },
              { "kind": "vibration", "weight": 3, "temperature": 400 },
              { "kind": "twoLevel", "weight": 1, "temperature": 900, "degeneracyRatio": 2 }
            ],
            "lowestTemperature": 85,
            "highestTemperature": 600,
            "source": "made up"
          },
          "volumeTranslation": {
            "pengRobinson": -4e-6,
            "soaveRedlichKwong": 2e-6,
            "fittedTo": { "temperature": 231, "molarDensity": 13170, "source": "made up" },
            "source": "made up"
          }
        }
        """;

    /// <summary>The file's text after replacements; each must hit exactly one place.</summary>
    public static string Json(params (string Old, string New)[] changes)
    {
        string text = Text;
        foreach ((string old, string replacement) in changes)
        {
            int at = text.IndexOf(old, StringComparison.Ordinal);
            Assert.True(at >= 0, $"the example has no {old}");
            Assert.True(text.IndexOf(old, at + old.Length, StringComparison.Ordinal) < 0, $"the example has several {old}");
            text = text.Replace(old, replacement, StringComparison.Ordinal);
        }

        return text;
    }
}
