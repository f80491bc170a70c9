// From memory: MassGIS Level 3 parcels (LOC_ID, MAP_PAR_ID, SITE_ADDR, OWNER1, TOTAL_VAL, STORIES),
// New York tax parcels (PRINT_KEY, SBL, SWIS_SBL_ID, PARCEL_ADDR, PRIMARY_OWNER), the
// emergency-calling model NENA-STA-006 (Add_Number, St_Name, Site_NGUID), the National Hydrography
// Dataset (GNIS_Name, FType, FCode), the code of the South African Surveyor-General (SG_CODE), the
// German cadastre ALKIS (flstkennz), the Swiss EGRID, the Spanish referencia catastral. Words of
// other languages are their plain ones. All others: common practice, no source.
#include "io/draft/known_columns.h"

#include <algorithm>
#include <array>
#include <utility>

namespace farwater::io {
namespace {

constexpr KnownColumn sure(std::string_view section, std::string_view field,
                           std::string_view names) {
    return {section, field, names, Doubt::none};
}
constexpr KnownColumn by_unit(std::string_view section, std::string_view field,
                              std::string_view names) {
    return {section, field, names, Doubt::unit};
}
constexpr KnownColumn likely(std::string_view section, std::string_view field,
                             std::string_view names) {
    return {section, field, names, Doubt::meaning};
}

constexpr std::array known_column_rows{
    sure("parcels", "parcel_id",
         "parcelid parcel parcel_no parcel_num parcel_number parcelno parcelnumb parcelnumber pin "
         "gis_pin gispin parcel_pin apn map_par_id mappar maplot map_lot maplotno mblu mbl "
         "map_block_lot parno print_key printkey sbl swis_sbl_id swis_sbl_i swis_print_key tax_map "
         "tax_map_no taxmap "
         "tax_map_number tax_map_lot tax_parcel_id taxparcel tax_id taxid gpin tms tmk loc_id "
         "prop_id propid "
         "property_id pid nh_gis_id nh_gis_i parcelkey parcel_key lot_id lotid sg_code flstkennz "
         "flurstueckskennzeichen flurstücksnummer flurstuecksnummer flstnr flurstnr egrid refcat "
         "referencia_catastral id_parcelle numero_parcelle perceelnummer "
         "id"),
    sure("parcels", "address",
         "site_addr siteaddr site_address siteaddres siteaddress situs situs_addr situs_address "
         "situsaddr prop_addr propaddr property_address prop_address propertyaddress parcel_addr "
         "parcel_address parceladdr prop_loc physical_address phys_addr full_addr fulladdr "
         "full_address fulladdress street_address streetaddress loc_addr locaddr e911_addr "
         "e911_address address911 addr adresse adres direccion dirección"),
    sure("parcels", "owner",
         "owner1 owner_1 owner_name ownername ownernme1 owner_nam own1 own_name ownname "
         "primary_owner primaryowner owner_full eigentümer eigentuemer propriétaire proprietaire "
         "propietario eigenaar"),
    sure("parcels", "needed_gpm", "needed_fire_flow nff nff_gpm needed_flow_gpm"),
    sure("parcels", "buildings",
         "bldgs bldg_count bldgcount num_bldgs no_bldgs nbr_bldgs building_count numbldgs"),
    sure("parcels", "storeys", "stories num_stories no_stories nbr_stories stories_num numstories"),
    sure("parcels", "zone",
         "fire_zone firezone response_zone resp_zone run_zone esz esn "
         "fire_district"),
    sure("parcels", "value",
         "total_val total_value totalvalue totalval tot_val tot_value total_av total_assd "
         "total_assessed assessed_total total_assessed_value total_market_value assessed_value "
         "assessedvalue assd_total total_assessment "
         "market_value marketvalue mkt_val full_mkt_val appraised_value appraised total_appraised"),
    sure("parcels", "people", "occupants residents"),
    likely(
        "parcels", "use",
        "use_code usecode landuse land_use luc land_use_code prop_class propclass usage use_desc "
        "class property_type"),
    // Needed, or available?
    likely("parcels", "needed_gpm", "fire_flow fireflow fire_flow_gpm"),
    likely("parcels", "construction", "constr_type construction_type exterior_wall"),
    likely("parcels", "public", "ownership own_type owner_type exempt"),

    sure("buildings", "building_id",
         "bldg_id bldgid buildingid build_id struct_id structure_id structid footprint_id ubid "
         "osm_way_id osm_id bldg_no id"),
    sure("buildings", "area_sqft", "footprint_sqft ground_sqft foot_sqft"),
    sure("buildings", "storeys",
         "stories num_stories no_stories num_floors floors levels building_levels"),
    likely("buildings", "area_sqft",
           "sqft bldg_sqft sq_ft gross_sqft sqfeet bldg_area building_area area"),
    by_unit("buildings", "height_ft", "height bldg_height bldgheight hgt_ft heightft"),
    likely("buildings", "use",
           "bldg_use bldguse building_use occ_class occupancy occ_cls bldg_type bldgtype "
           "building_type building"),

    sure("address_points", "parcel_id",
         "parcelid parcel parcel_no pin apn map_par_id maplot map_lot mblu print_key sbl loc_id"),

    sure("roads", "name",
         "street streetname street_name st_name stname road_name roadname rd_name rdname road "
         "fullname full_name full_street full_st_name fullstname fullstreet label fename strname "
         "str_name street_nam strassenname straßenname nom_voie nom_rue nombre_calle nombre_via "
         "straatnaam"),
    sure("roads", "class",
         "road_class roadclass rdclass rd_class func_class funcclass funct_class functional_class "
         "f_class fclass func_cls func_sys f_f_class legis_class legisclass legis_cla roadtype "
         "road_type rd_type street_type highway mtfcc cfcc fcc"),
    sure("roads", "one_way",
         "oneway one_way_dir onewaydir oneway_dir traffic_direction travel_direction "
         "direction_of_travel oneway_code oneway_type"),
    sure("roads", "bridge", "is_bridge bridge_yn on_bridge"),
    sure("roads", "rail_crossing", "railxing rail_xing rr_xing rr_crossing rrxing"),
    // A posted limit only slows: km/h taken for mph, or a planning speed for a limit, drives no
    // faster than a blank.
    sure("roads", "speed_limit_mph",
         "speedlimit speed_limit speed_lim speedlim spd_limit speed_lmt posted_speed postedspeed "
         "posted speed_mph mph speed posted_speed_limit max_speed"),
    sure("roads", "weight_limit_lb", "posted_ton weight_ton limit_ton load_limit_ton"),
    likely("roads", "class", "type acc"),
    likely("roads", "access",
           "road_access access_type gate gate_status ownership owner_type jurisdictn jurisdiction "
           "juris "
           "maint_by status private"),
    likely("roads", "surface",
           "surf_type surface_type surfacetype surface_tp surftype surf pavement pave_type"),
    by_unit("roads", "width_ft",
            "width road_width roadwidth rd_width pave_width surf_width surface_wd surface_width "
            "trav_width travel_way_width"),
    by_unit("roads", "weight_limit_lb",
            "weight_limit weightlimit max_weight posted_weight weight_posted posted_weight_limit "
            "posted_limit load_limit posted_load max_load weight_restriction weight"),
    by_unit("roads", "height_limit_ft",
            "height_limit clearance min_clear vert_clear min_vert_clear max_height "
            "height_restriction"),
    sure("roads", "maintained_months", "months_open months_maintained months_plowed"),
    likely("roads", "maintained_months",
           "maint_mo maint_months winter_maint seasonal plowed ploughed winter"),

    sure("water_sources", "source_id",
         "sourceid source_no hydrant_id hydrantid hyd_id hydid hydrant_no hydrant_num hyd_no "
         "hydrant facilityid facility_id asset_id assetid site_id water_id ws_id number id"),
    sure("water_sources", "name", "source source_name site_name location"),
    sure("water_sources", "kind",
         "source_type sourcetype hydrant_type hyd_type hydtype water_type type"),
    sure("water_sources", "rate_gpm", "gpm flow_gpm gpm_rated flow_rate_gpm"),
    sure("water_sources", "standing", "status source_status"),
    sure("water_sources", "system", "water_system system_name"),
    sure("water_sources", "static_lift_ft", "lift_ft suction_lift_ft"),
    by_unit("water_sources", "static_lift_ft", "lift static_lift suction_lift"),
    sure("water_sources", "open_months", "months_open months months_usable"),
    likely("water_sources", "open_months", "seasonal season winter winter_access year_round"),
    likely("water_sources", "reach", "access accessibility"),
    sure("water_sources", "standing_by", "tested_by vouched_by declared_by by"),
    sure("water_sources", "frost_proof", "frost_ok frost_free freeze_proof"),
    sure("water_sources", "all_weather", "all_wx"),
    sure("water_sources", "dead_end_main", "dead_end"),
    sure("water_sources", "system_rate_gpm", "system_gpm"),
    sure("water_sources", "pipe_diameter_in", "pipe_in suction_pipe_in"),
    by_unit("water_sources", "pipe_diameter_in", "pipe_diameter suction_pipe_diameter"),
    sure("water_sources", "pipe_material", "material"),
    by_unit("water_sources", "strainer_loss_ft", "strainer strainer_loss"),
    sure("water_sources", "certified_by", "cert_by"),
    sure("water_sources", "certified_on", "cert_on cert_date"),
    sure("water_sources", "cross_street", "cross nearest_cross_street"),
    likely("water_sources", "drought_area_acre", "acres surface_acres pond_acres"),
    likely("water_sources", "intake_depth_ft", "depth_ft depth water_depth"),
    sure("water_sources", "usable_gal", "usable_gallons"),
    sure("water_sources", "tested_on", "tested test_date testdate flow_date date_tested last_test"),
    sure("water_sources", "owner", "owner_name ownername"),
    sure("water_sources", "note", "notes comment comments remarks"),
    by_unit("water_sources", "rate_gpm", "flow rate"),
    likely("water_sources", "rate_gpm", "capacity"),
    // Of a full pond, or at drought level?
    likely("water_sources", "usable_gal",
           "gallons gals capacity_gal tank_capacity_gal storage_gal volume_gal tank_gal volume "
           "usable storage"),
    by_unit("water_sources", "static_psi", "static static_pressure staticpres"),
    by_unit("water_sources", "residual_psi", "residual residual_pressure resid"),
    by_unit("water_sources", "test_flow_gpm", "test_flow observed_flow"),
    likely("water_sources", "colour_class", "color colour bonnet_color cap_color flow_class"),
    by_unit("water_sources", "main_in", "main_size main_diam main_dia mainsize pipe_size"),

    sure("stations", "station_id",
         "station stationid sta_id station_no station_num station_number stationno sta_no stn "
         "stn_no sta facility_id facilityid fac_id facid station_id_no number id objectid"),
    sure("stations", "name",
         "station_name stationname placename place_name facility facility_name fac_name "
         "facilityname dept department label"),
    sure("stations", "to_gate_min", "to_gate gate_min"),
    likely("stations", "staffed", "career staffing_type station_type"),

    sure("apparatus", "unit_id",
         "unit unitid unit_no unit_name apparatus apparatus_id truck truck_no vehicle vehicle_id "
         "call_sign callsign radio radio_id"),
    sure("apparatus", "station_id",
         "station home_station housed_at quarters station_no sta stn station_number"),
    sure("apparatus", "kind", "type unit_type apparatus_type vehicle_type truck_type app_type"),
    sure("apparatus", "tank_gal",
         "tank_gallons gallons water_gal gal tank_capacity_gal water_tank_gal tank_size_gal "
         "capacity_gal"),
    sure("apparatus", "pump_gpm", "gpm pump_rating_gpm rated_gpm pump_capacity_gpm"),
    sure("apparatus", "fill_limit_gpm", "fill_gpm fill_rate_gpm"),
    sure("apparatus", "offload_gpm", "dump_gpm dump_rate_gpm offload_rate_gpm"),
    sure("apparatus", "portable_tank_gal",
         "folding_tank_gal folding_tanks_gal drop_tank_gal dump_tank_gal porta_tank_gal "
         "port_a_tank_gal"),
    by_unit("apparatus", "width_ft", "overall_width"),
    by_unit("apparatus", "height_ft", "overall_height"),
    sure("apparatus", "hose_2_5in_ft", "2_5_in_ft"),
    sure("apparatus", "hose_3in_ft", "3_in_ft"),
    sure("apparatus", "hose_4in_ft", "4_in_ft"),
    sure("apparatus", "hose_5in_ft", "5_in_ft"),
    sure("apparatus", "tested_on", "timed_on date_timed"),
    sure("apparatus", "backs_to_offload", "backs_to_dump rear_dump_only rear_dump"),
    sure("apparatus", "crew", "usual_crew staffing crew_size"),
    by_unit("apparatus", "tank_gal",
            "tank tank_size water water_tank tank_capacity booster_tank capacity"),
    by_unit("apparatus", "pump_gpm", "pump pump_size pump_capacity pump_rating"),
    by_unit("apparatus", "portable_tank_gal",
            "portable_tank folding_tank drop_tank dump_tank porta_tank"),
    by_unit("apparatus", "loaded_lb", "gvw gvwr gross_weight loaded_weight weight_loaded"),
    likely("apparatus", "loaded_lb", "weight"),

    sure("staffing", "unit_id", "unit unit_no apparatus"),
    sure("staffing", "period", "shift time_period"),
    sure("staffing", "station_id", "station station_no"),
    sure("staffing", "turnout_min", "turnout"),
    sure("response_zones", "zone", "fire_zone firezone esz esn fire_district response_zone"),
    sure("response_zones", "unit_id", "unit unit_no"),

    sure("dump_site_places", "place_id", "dump_site dump_site_id site_id place id"),
    sure("dump_site_places", "portable_tanks", "tanks number_of_tanks"),
    sure("targets", "target_id", "target id"),
    sure("targets", "needed_gpm", "gpm needed_fire_flow nff"),
    sure("targets", "duration_min", "minutes"),
    sure("turnarounds", "turnaround_id", "turn turnaround id"),
    sure("mapped_water", "name", "gnis_name gnisname water_name lake_name waterbody"),
};

// What the table is of, for names that say it once more.
constexpr std::array<std::pair<std::string_view, std::string_view>, 6> thing_rows{{
    {"parcels", "parcel property"},
    {"buildings", "building structure"},
    {"roads", "road street"},
    {"water_sources", "hydrant source"},
    {"stations", "station fire"},
    {"apparatus", "apparatus unit vehicle truck"},
}};

constexpr std::array sign_rows{
    SectionSigns{
        "parcels",
        "lot_size deeded_acres deed_acres gis_acres calc_acres assessed_acres year_built "
        "bldg_value land_value land_val bldg_val acreage acres mail_addr mailing_address "
        "abutters lot block",
        "parcel cadast taxlot tax_lot lots erven farms assess property flurst grundst perceel "
        "kataster kadaster catastr",
        "zoning soil wetland landuse land_use landcover census block_group tract flood "
        "district precinct county watershed geolog habitat conserv easement boundary "
        "outline town_line zipcode school protected building footprint water lake pond"},
    SectionSigns{
        "roads",
        "surf_type surface lanes num_lanes l_f_add l_t_add r_f_add r_t_add lf_addr lt_addr "
        "leftfrom fromaddr add_l_from fromaddr_l speed route route_id aadt numlanes",
        "road street centerline centreline highway strt strasse straße tronçon_de_route "
        "troncon_de_route calles "
        "callejero carretera camino wegen wegvak",
        "river stream flowline waterway trail rail contour boundary power transmission "
        "pipe bike culvert snowmobile hydro ditch sidewalk fence hike path driveway_easement "
        "coast canal brook creek radweg wanderweg"},
    SectionSigns{
        "buildings", "footprint roof_type roof height bldg_height levels floors",
        "building bldg footprint structure rooftop gebäude gebaeude bâtiment batiment edificio "
        "gebouw",
        "parcel water lake pond zoning envelope"},
    SectionSigns{"address_points",
                 "add_number addr_num addrnum house_no house_num housenum hse_num hnumber addnum "
                 "st_num stnum street_no street_num streetno site_nguid number full_addr fulladdr "
                 "full_address street_name st_name stname streetname str_name msag_comm unit_no "
                 "address siteaddr",
                 "address addr e911 siteaddr", "station hydrant fire parcel"},
    SectionSigns{
        "water_sources",
        "hydrant_type hyd_type bonnet_color cap_color flow_gpm static residual pitot",
        "hydrant cistern water_source watersource fill_site fillsite dry_hyd draft hidrante "
        "löschwasser loeschwasser zisterne citerne poteau_incendie brandkraan",
        "valve meter station propos planned"},
    SectionSigns{"mapped_water",
                 "natural waterbody ftype fcode reachcode gnis_id hydrocode wb_name",
                 "lake pond water hydro reservoir nhd gewässer gewaesser plan_d_eau étang embalse",
                 "source shed hydrant meter valve"},
    SectionSigns{"stations", "fdid fire_dept firedept apparatus_count",
                 "fire_station firestation station firehouse fire_house fire_hall feuerwache "
                 "feuerwehrhaus gerätehaus geraetehaus caserne bomberos brandweerkazerne",
                 "gas police weather gauge ev_ charging bus pump_station lift"},
    SectionSigns{"apparatus", "", "apparatus fleet engines trucks vehicles units rolling", ""},
    SectionSigns{"staffing", "", "staffing roster crews", "run timed incident drill call log"},
    SectionSigns{"response_zones", "", "response run_order runorder dispatch", ""},
    SectionSigns{"dump_site_places", "", "dump_site dumpsite dump_place dump_sites", ""},
    SectionSigns{"turnarounds", "", "turnaround turn_around", ""},
    SectionSigns{"targets", "", "target camps mileposts", ""},
    SectionSigns{"join",
                 "year_built bldg_value land_value land_val bldg_val grade condition heated_area "
                 "living_area sale_date sale_price book page cama",
                 "assess cama tax_roll taxroll grand_list owners",
                 "apparatus station hydrant staff unit source"},
    SectionSigns{"elevation", "",
                 "elev dem dtm srtm lidar ground height hgt terrain bare_earth 3dep",
                 "hillshade slope aspect ortho naip landcover nlcd canopy impervious surface_model "
                 "dsm contour flood depth"},
};

}  // namespace

std::span<const KnownColumn> known_columns() { return known_column_rows; }

std::string_view words_of_thing(std::string_view section) {
    const auto* found = std::ranges::find(thing_rows, section,
                                          &std::pair<std::string_view, std::string_view>::first);
    return found == thing_rows.end() ? std::string_view{} : found->second;
}

const SectionSigns* find_signs(std::string_view section) {
    const auto* found = std::ranges::find(sign_rows, section, &SectionSigns::section);
    return found == sign_rows.end() ? nullptr : found;
}

std::vector<std::string_view> words_in(std::string_view list) {
    std::vector<std::string_view> words;
    while (!list.empty()) {
        const std::size_t end = std::min(list.find(' '), list.size());
        if (end > 0) {
            words.push_back(list.substr(0, end));
        }
        list.remove_prefix(std::min(end + 1, list.size()));
    }
    return words;
}

}  // namespace farwater::io
